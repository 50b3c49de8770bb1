#pragma once

#include <cstddef>
#include <fstream>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "terminal/session.h"

namespace terminal {

// What stands in a file, or with "-" all that comes in at the input, piece by piece, so that a long
// file is never held as a whole; only what can be read but once is, as far as it was asked for.
// InputError where it cannot be read, and where what has to be held is more than kMostHeld.
class FilePieces {
 public:
  // More than any copy of a logbook and any table that somebody sends through a pipe.
  static constexpr std::size_t kMostHeld = std::size_t{1} << 30U;

  FilePieces(const Session& session, std::string file);

  // The next piece, which stays until the one after it is asked for; empty at the end.
  [[nodiscard]] std::string_view next();

  void begin_again();

  // All of it, from its beginning, after which nothing more is read. `look` is given each piece
  // before the next one is read.
  [[nodiscard]] std::string whole(const std::function<void(std::string_view piece)>& look);

 private:
  [[nodiscard]] std::string next_of_stream();
  void check_was_read() const;
  void check_can_be_held(std::size_t bytes) const;

  const Session& session_;
  std::string file_;
  std::ifstream stream_;
  bool is_held_ = false;           // what can be read but once
  std::vector<std::string> held_;  // of that, what was read
  std::size_t held_bytes_ = 0;
  std::size_t given_ = 0;  // of the pieces that are held
  std::string piece_;
};

}  // namespace terminal
