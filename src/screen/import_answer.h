#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "words/text.h"

namespace screen {

inline constexpr std::string_view kWholeLogbook = "logbook";

// What an import took in, or would.
struct Imported {
  std::string what;             // the table, or kWholeLogbook
  std::size_t rows = 0;         // of the file, without its header
  std::size_t lines = 0;        // of the logbook
  std::int64_t first_line = 0;  // 0 where none was written
  bool written = false;
};

// "16 rows of joints: 21 lines, 5 to 25", "the whole logbook: 5 lines, 1 to 5".
[[nodiscard]] std::string imported_text(const Imported& imported, const words::Page& page);

// {"what","rows","lines","first_line","written"}; first_line is null where nothing was written.
[[nodiscard]] std::string imported_json(const Imported& imported);

}  // namespace screen
