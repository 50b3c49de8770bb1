#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "words/text.h"

namespace screen {

// What became of a copy that was made and verified.
struct BackupMade {
  std::string file;
  std::int64_t lines = 0;
  std::vector<std::string> hashes;     // of its ends, the last line last; none in an earlier schema
  std::vector<std::string> removed;    // older copies
  std::vector<std::string> different;  // kept, since they hold lines that the logbook does not
};

[[nodiscard]] std::string backup_text(const BackupMade& made, const words::Page& page);
[[nodiscard]] std::string backup_json(const BackupMade& made);

}  // namespace screen
