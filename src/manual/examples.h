#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace manual {

// What the help of a command shows besides its options; kept in examples.txt beside this file,
// which a test types from top to bottom.
struct Examples {
  std::string command;
  std::string typed;  // a command a line
  std::string see;    // what to read next: commands, and pages as "help NAME"
};

// Of every command that has any, in the order of the file.
[[nodiscard]] const std::vector<Examples>& examples();

// Of one command; nullptr where there are none.
[[nodiscard]] const Examples* examples_of(std::string_view command);

// The file as it stands, put into the program when it is built.
[[nodiscard]] std::string_view examples_text();

}  // namespace manual
