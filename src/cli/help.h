#pragma once

#include <cstddef>
#include <string>

namespace CLI {
class App;
}

namespace cli {

// The page that --help prints, laid out for a terminal of this width: what the command is for, how
// it is typed, its words and options; for the program as a whole the list of its commands.
[[nodiscard]] std::string help_text(const CLI::App& command, std::size_t width);

}  // namespace cli
