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

// Options that belong together, and the title that they stand under; none for those that have no
// group of their own and for the words that a command takes.
struct OptionGroup {
  std::string title;
  std::vector<const CLI::Option*> options;
};

// The group of what is an option of every command, such as --help.
inline constexpr const char* kOfEveryCommand = "Of every command";

// All options of the command, words first: those without a title, then each group where its first
// option was declared, and what every command has at the end.
[[nodiscard]] std::vector<OptionGroup> option_groups_of(const CLI::App& command);

// What a value is called where it is typed: "NAME" for --wrench NAME; a word that a command takes
// is called as it is declared, but where it says more, such as "READING ...".
[[nodiscard]] std::string value_of(const CLI::Option& option);

// How one is typed: "JOINT/POSITION", "-h, --help", "--wrench NAME".
[[nodiscard]] std::string term_of(const CLI::Option& option);

// How the command is typed, in one line: "boltwitness found JOINT/POSITION [READING ...]
// [options]".
[[nodiscard]] std::string usage_of(const CLI::App& command);

}  // namespace cli
