#include "cli/help_topic.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>

#include "cli/help.h"
#include "cli/pending.h"
#include "cli/usage.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "quantity/number_text.h"
#include "screen/manual_answer.h"
#include "terminal/session.h"

namespace cli {

void declare_help_topic(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<HelpTopicOptions>();
  auto* command =
      app.add_subcommand("help", "Read about a topic, such as words; alone, what there is");
  command->add_option("TOPIC", options->topic, "A topic, or a command")->option_text("TOPIC");
  command->callback([options, &app, &pending] {
    pending.run = [options, &app](const terminal::Session& session) {
      return run_help_topic(*options, app, session);
    };
  });
}

int run_help_topic(const HelpTopicOptions& options, const CLI::App& app,
                   const terminal::Session& session) {
  if (options.topic.empty()) {
    session.out() << (session.json() ? screen::topics_json() : screen::topics_text(session.page()));
    return failure::kDone;
  }
  const auto page = std::ranges::find(manual::pages(), options.topic, &manual::Page::name);
  if (page != manual::pages().end()) {
    session.out() << (session.json() ? screen::manual_json(*page)
                                     : screen::manual_text(*page, session.page()));
    return failure::kDone;
  }
  const auto commands =
      app.get_subcommands([&](const CLI::App* each) { return each->get_name() == options.topic; });
  if (!commands.empty()) {
    session.out() << help_text(*commands.front(), session.page().width);
    return failure::kDone;
  }
  if (const auto hint = shown_by(options.topic); !hint.empty()) {
    throw failure::UsageError(
        fmt::format("there is no page about {}{}", quantity::quoted(options.topic), hint));
  }
  std::string names;
  for (const auto& each : manual::pages()) names += fmt::format("{}, ", each.name);
  throw failure::UsageError(fmt::format("there is no page about {}; expected one of {}or a command",
                                        quantity::quoted(options.topic), names));
}

}  // namespace cli
