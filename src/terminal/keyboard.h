#pragma once

#include <optional>
#include <string>

namespace terminal {

// What a person at the bench types on the standard input. On a terminal a key counts when it is
// pressed, without Enter; on a pipe it is the first letter of a line, and Enter alone is '\n'.
// Nothing at the end of the input, and where Ctrl-C or Ctrl-D is pressed at a key: both mean stop,
// and the terminal is left as it was.
[[nodiscard]] std::optional<char> read_key();

// A line with its editing keys, without the line break; nothing at the end of the input.
[[nodiscard]] std::optional<std::string> read_line();

}  // namespace terminal
