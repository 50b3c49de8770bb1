#include "cli/help_topic.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <CLI/CLI.hpp>

#include "act/lookup.h"
#include "cli/help.h"
#include "cli/man_pages.h"
#include "cli/pending.h"
#include "cli/sought_command.h"
#include "cli/usage.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "manual/looked_for.h"
#include "paper/manual_book.h"
#include "quantity/number_text.h"
#include "screen/manual_answer.h"
#include "screen/written_file.h"
#include "terminal/session.h"

namespace cli {
namespace {

// What may be meant where there is no page, or where to look.
std::string meant_instead(const std::string& topic, const CLI::App& app) {
  if (auto hint = shown_by(topic); !hint.empty()) return hint;
  if (auto hint = command_instead_of(topic); !hint.empty()) return hint;
  std::vector<std::string> known;
  for (const auto& page : manual::pages()) {
    known.emplace_back(page.name);
    for (auto& word : manual::looked_for_as(page)) known.push_back(std::move(word));
  }
  for (const auto* command : app.get_subcommands({})) known.push_back(command->get_name());
  const auto hint = act::suggestion(manual::as_looked_for(topic), known);
  return fmt::format("{} \"boltwitness help\" lists the pages, \"boltwitness --help\" the commands",
                     hint.empty() ? ";" : hint);
}

}  // namespace

void declare_help_topic(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<HelpTopicOptions>();
  command.add_option("TOPIC", options->topic, "A topic, a word looked for in one, or a command");
  command.add_flag("--html", options->book, "The whole manual as one page to read or print")
      ->group(kPageGroup);
  declare_page_options(command, options->page);
  command.add_option("--man", options->man, "Write the pages for man(1) into this folder")
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
    session.out() << (session.json() ? screen::written_file_json(options.man)
                                     : screen::written_file_text(options.man));
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
  const auto topic = fmt::format("{}", fmt::join(options.topic, " "));
  const auto wanted = manual::as_looked_for(topic);
  if (const auto* page = manual::page_about(topic)) {
    if (session.json()) {
      session.out() << screen::manual_json(*page);
    } else {
      const auto layout = session.page();
      session.read_text((page->name == wanted ? "" : screen::found_under(topic, *page, layout)) +
                        screen::manual_text(*page, layout));
    }
    return failure::kDone;
  }
  const auto commands =
      app.get_subcommands([&](const CLI::App* each) { return each->get_name() == wanted; });
  if (!commands.empty()) {
    if (session.json()) {
      throw failure::UsageError("the help of a command is text; leave --json away");
    }
    session.read_text(help_text(*commands.front(), session.page().width));
    return failure::kDone;
  }
  throw failure::UsageError(fmt::format("there is no page about {}{}", quantity::quoted(topic),
                                        meant_instead(topic, app)));
}

}  // namespace cli
