#include "cli/help_topic.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>

#include "cli/help.h"
#include "cli/man_pages.h"
#include "cli/pending.h"
#include "cli/usage.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "paper/manual_book.h"
#include "quantity/number_text.h"
#include "screen/manual_answer.h"
#include "terminal/session.h"

namespace cli {

void declare_help_topic(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<HelpTopicOptions>();
  command.add_option("TOPIC", options->topic, "A topic, or a command")->option_text("TOPIC");
  command.add_flag("--html", options->book, "The whole manual as one page to read or print");
  declare_page_options(command, options->page);
  command.add_option(kManPagesOption, options->man, "Write the pages for man(1) into this folder")
      ->option_text("FOLDER");
  command.callback([options, &command, &pending] {
    pending.run = [options, &app = *command.get_parent()](const terminal::Session& session) {
      return run_help_topic(*options, app, session);
    };
  });
}

int run_help_topic(const HelpTopicOptions& options, const CLI::App& app,
                   const terminal::Session& session) {
  if (!options.man.empty()) {
    write_man_pages(app, options.man);
    return failure::kDone;
  }
  if (options.book) {
    give_out(paper::manual_book(BOLTWITNESS_VERSION, paper_size_of(options.page)), options.page,
             session);
    return failure::kDone;
  }
  if (options.topic.empty()) {
    session.out() << (session.json() ? screen::topics_json() : screen::topics_text(session.page()));
    return failure::kDone;
  }
  const auto page = std::ranges::find(manual::pages(), options.topic, &manual::Page::name);
  if (page != manual::pages().end()) {
    if (session.json()) {
      session.out() << screen::manual_json(*page);
    } else {
      session.read_text(screen::manual_text(*page, session.page()));
    }
    return failure::kDone;
  }
  const auto commands =
      app.get_subcommands([&](const CLI::App* each) { return each->get_name() == options.topic; });
  if (!commands.empty()) {
    if (session.json()) {
      throw failure::UsageError("the help of a command is text; leave --json away");
    }
    session.read_text(help_text(*commands.front(), session.page().width));
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
