#pragma once

#include <span>
#include <string>
#include <string_view>

namespace cli {

// Commands that people look for under another name than the one there is, or that there are not.
struct SoughtCommand {
  std::string_view words;    // parted by blanks; none is a command
  std::string_view instead;  // what there is for it, with the command to type
};

[[nodiscard]] std::span<const SoughtCommand> sought_commands();

// "; no line is removed; ..." for a word among them, in whatever case; empty for any other.
[[nodiscard]] std::string command_instead_of(std::string_view word);

// The page of the manual that is looked for under a word which is no command; empty where there is
// none.
[[nodiscard]] std::string page_instead_of(std::string_view word);

}  // namespace cli
