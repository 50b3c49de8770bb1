#pragma once

#include <fstream>
#include <optional>
#include <string>
#include <string_view>

#include "terminal/session.h"

namespace terminal {

// What stands in a file, or with "-" all that comes in at the input, piece by piece, so that a long
// file is never held as a whole; only what can be read but once is. InputError where it cannot be
// read.
class FilePieces {
 public:
  FilePieces(const Session& session, std::string file);

  // The next piece, which stays until the one after it is asked for; empty at the end.
  [[nodiscard]] std::string_view next();

  void begin_again();

  // All of it, from its beginning.
  [[nodiscard]] std::string whole();

 private:
  void check_was_read() const;

  std::string file_;
  std::ifstream stream_;
  std::optional<std::string> content_;  // where it is not read out of the file piece by piece
  bool is_given_ = false;               // the content
  std::string piece_;
};

}  // namespace terminal
