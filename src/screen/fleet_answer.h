#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "fleet/store.h"
#include "words/text.h"

namespace screen {

// What became of one logbook that was to be loaded.
struct LoadedLogbook {
  std::string file;     // as it was named
  std::string machine;  // empty where it was refused before that was known
  std::string state;    // "new", "grown", "worked out anew", "nothing new", "older copy", "refused"
  std::size_t lines = 0;
  std::size_t new_lines = 0;
  std::string why = {};  // it was refused
};

// How many were loaded and how many lines came; the refused ones first, then a row each. The list
// is cut; `whole` is the command that cuts none, empty where it was given.
[[nodiscard]] std::string loaded_text(const std::vector<LoadedLogbook>& logbooks,
                                      std::string_view whole, const words::Page& page);

// {"loaded","refused","new_lines","logbooks":[{"file","machine","state","lines","new_lines",
// "why"|null}]}
[[nodiscard]] std::string loaded_json(const std::vector<LoadedLogbook>& logbooks);

// Each question with what it answers.
[[nodiscard]] std::string questions_text(const words::Page& page);
// {"questions":[{"question","view","says"}]}
[[nodiscard]] std::string questions_json();

// How many rows a text answer shows; so many more make the line that says how many are left out.
inline constexpr std::size_t kMostFleetRows = 40;

// What it answers and of how many, then a row each. `answer` holds all rows, or one more than
// kMostFleetRows; `whole` is the command that cuts none, empty where it was given.
[[nodiscard]] std::string fleet_text(const fleet::Question& question, const fleet::Answer& answer,
                                     std::string_view whole, const words::Page& page);

// {"question","says","rows":[..]}: each row with the columns of the view, in their order.
[[nodiscard]] std::string fleet_json(const fleet::Question& question, const fleet::Answer& answer);

}  // namespace screen
