#pragma once

#include <string>

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

struct HelpTopicOptions {
  std::string topic;  // a page of the manual, or a command; empty lists the pages
};

void declare_help_topic(CLI::App& app, Pending& pending);
[[nodiscard]] int run_help_topic(const HelpTopicOptions& options, const CLI::App& app,
                                 const terminal::Session& session);

}  // namespace cli
