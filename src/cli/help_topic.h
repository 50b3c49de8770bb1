#pragma once

#include <string>
#include <vector>

#include "cli/page_file.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

constexpr const char* kHelpCommand = "help";

struct HelpTopicOptions {
  // The words of what is looked for: a page of the manual, or a command; none lists the pages.
  std::vector<std::string> topic;
  std::string man;    // a folder for the pages of man(1)
  bool book = false;  // the whole manual as one page to print
  PageOptions page;
};

void declare_help_topic(CLI::App& command, Pending& pending);
[[nodiscard]] int run_help_topic(const HelpTopicOptions& options, const CLI::App& app,
                                 const terminal::Session& session);

}  // namespace cli
