#include "manual/examples.h"

#include <algorithm>
#include <sstream>

#include "cli/commands.h"
#include "manual/page.h"
#include "support/catch.h"

namespace examples_test {

namespace {

std::vector<std::string> parts_of(const std::string& text, char end) {
  std::istringstream rest(text);
  std::vector<std::string> parts;
  for (std::string part; std::getline(rest, part, end);) {
    parts.push_back(part.substr(part.find_first_not_of(' ')));
  }
  return parts;
}

}  // namespace

TEST_CASE("every example is of the command that it stands under, or makes room for it",
          "[manual]") {
  for (const auto& shown : manual::examples()) {
    INFO(shown.command);
    const auto lines = parts_of(shown.typed, '\n');
    CHECK(std::ranges::any_of(lines, [&](const std::string& line) {
      return (line + ' ').starts_with("boltwitness " + shown.command + ' ');
    }));
    for (const auto& line : lines) {
      INFO(line);
      CHECK((line.starts_with("boltwitness ") || line.starts_with("mkdir ")));
    }
    CHECK(manual::examples_of(shown.command) == &shown);
  }
  CHECK(manual::examples_of("no-such-command") == nullptr);
}

TEST_CASE("the help of every command shows three examples and what to read next", "[manual]") {
  for (const auto& part : cli::command_parts()) {
    for (const auto& command : part.commands) {
      INFO(command.name);
      const auto* shown = manual::examples_of(command.name);
      REQUIRE(shown != nullptr);
      CHECK_FALSE(shown->see.empty());
      CHECK(std::ranges::count_if(parts_of(shown->typed, '\n'), [](const std::string& line) {
              return line.starts_with("boltwitness ");
            }) >= 3);
    }
  }
}

TEST_CASE("what a help sends its reader to is there", "[manual]") {
  for (const auto& shown : manual::examples()) {
    for (const auto& name : parts_of(shown.see, ',')) {
      INFO(shown.command << ": " << name);
      const bool is_page = name.starts_with("help ") &&
                           std::ranges::find(manual::pages(), name.substr(5),
                                             &manual::Page::name) != manual::pages().end();
      CHECK((is_page || manual::examples_of(name) != nullptr));
    }
  }
}

}  // namespace examples_test
