#pragma once

#include <string>
#include <vector>

namespace CLI {
class App;
class Option;
}  // namespace CLI

namespace cli {

// The words that a command takes (`positional`), or its options, in the order in which it names
// them.
[[nodiscard]] std::vector<const CLI::Option*> options_of(const CLI::App& command, bool positional);

// How one is typed: "JOINT/POSITION", "-h, --help", "--wrench NAME".
[[nodiscard]] std::string term_of(const CLI::Option& option);

// How the command is typed, in one line: "boltwitness found JOINT/POSITION [READING ...]
// [options]".
[[nodiscard]] std::string usage_of(const CLI::App& command);

}  // namespace cli
