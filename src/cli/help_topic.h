#pragma once

#include <string>

#include "cli/page_file.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

// Its option that writes pages about every command.
constexpr const char* kManPagesOption = "--man";

struct HelpTopicOptions {
  std::string topic;  // a page of the manual, or a command; empty lists the pages
  std::string man;    // a folder for the pages of man(1)
  bool book = false;  // the whole manual as one page to print
  PageOptions page;
};

void declare_help_topic(CLI::App& command, Pending& pending);
[[nodiscard]] int run_help_topic(const HelpTopicOptions& options, const CLI::App& app,
                                 const terminal::Session& session);

}  // namespace cli
