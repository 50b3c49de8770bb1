#pragma once

#include <string_view>
#include <vector>

namespace CLI {
class App;
}

namespace cli {

struct Pending;

// One command: its name, what it does, and what gives it its options, which is asked for only where
// it is called or all about it is told.
struct Command {
  const char* name;
  const char* about;
  void (*declare)(CLI::App& command, Pending& pending);
};

struct CommandPart {
  std::string_view title;
  std::vector<Command> commands;
};

// What is asked most often first, then in the order of a job; which is the order of the help.
[[nodiscard]] const std::vector<CommandPart>& command_parts();

}  // namespace cli
