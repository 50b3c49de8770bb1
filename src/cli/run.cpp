#include "cli/run.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <exception>
#include <new>
#include <span>
#include <sstream>
#include <string_view>

#include "cli/command_terms.h"
#include "cli/commands.h"
#include "cli/completion.h"
#include "cli/help.h"
#include "cli/help_topic.h"
#include "cli/network.h"
#include "cli/pending.h"
#include "cli/status.h"
#include "cli/usage.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "logbook/logbook_error.h"
#include "quantity/visible_text.h"
#include "terminal/inert_stream.h"
#include "terminal/locale_characters.h"
#include "terminal/session.h"
#include "words/given_width.h"
#include "words/text.h"

namespace cli {
namespace {

constexpr const char* kVersion = BOLTWITNESS_VERSION;

constexpr const char* kAbout =
    "Logbook for witness marks and torque: what came out, at what torque it was found, what is "
    "specified, and in which order it all goes back.";

constexpr const char* kFooter =
    "The maker's current manual and local rules outrank this logbook. "
    "Break loose with a breaker bar, never with the torque wrench.";

void declare_global_options(CLI::App& app, terminal::GlobalOptions& options) {
  app.add_option("--log", options.log,
                 "The logbook; else BOLTWITNESS_LOG, else the *.bolts file here or above")
      ->option_text("FILE");
  app.add_option("--by", options.by, "Who did it; else BOLTWITNESS_BY, else the login name")
      ->option_text("WHO");
  app.add_option("--at", options.at, "When it was done, such as 2026-03-02T08:15; else now")
      ->option_text("TIME");
  app.add_flag("--json", options.json, "The answer as JSON");
  app.add_flag("--no-color", options.no_color, "No emphasis; so does NO_COLOR");
}

// Most of what is declared is options of commands that nobody called. The first page of the help
// needs the names of all, and only a message, what completes a word and the pages for man need all
// options too.
enum class Declared { Called, Names, All };

void declare_commands(CLI::App& app, Pending& pending, Declared which,
                      const std::vector<std::string>& arguments) {
  for (const auto& part : command_parts()) {
    for (const auto& [name, about, declare_options] : part.commands) {
      if (which == Declared::Called &&
          std::ranges::find(arguments, std::string_view(name)) == arguments.end()) {
        continue;
      }
      auto* command = app.add_subcommand(name, about)->group(std::string(part.title));
      if (which != Declared::Names) declare_options(*command, pending);
    }
  }
  // Global options may stand behind the command as well.
  for (auto* command : app.get_subcommands({})) {
    command->fallthrough();
    command->set_help_flag("-h,--help", "This page")->group(kOfEveryCommand);
  }
}

int tell(terminal::Context& context, int code, std::string_view message) {
  // A message has lines of its own, such as the logbooks to choose from.
  std::string_view first = "boltwitness: ";
  while (!message.empty()) {
    const auto end = message.find('\n');
    context.err << words::wrapped(message.substr(0, end), context.width, first, "  ");
    message.remove_prefix(end == std::string_view::npos ? message.size() : end + 1);
    first = "  ";
  }
  return code;
}

void declare(CLI::App& app, terminal::GlobalOptions& options, Pending& pending, Declared which,
             const std::vector<std::string>& arguments) {
  app.set_help_flag("-h,--help", "This page");
  app.set_version_flag("--version", std::string("boltwitness ") + kVersion,
                       "The version of this program");
  app.footer(kFooter);
  app.require_subcommand(0, 1);
  declare_global_options(app, options);
  declare_commands(app, pending, which, arguments);
}

int parse_and_run(const std::vector<std::string>& arguments, terminal::Context& context,
                  const Network& network, Declared which) {
  CLI::App app{kAbout, "boltwitness"};
  terminal::GlobalOptions options;
  Pending pending{.run = {}, .network = network};
  declare(app, options, pending, which, arguments);
  refuse_empty_assignments(arguments);
  std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());  // as CLI11 takes them
  try {
    app.parse(reversed);
  } catch (const CLI::CallForHelp&) {
    const auto chosen = app.get_subcommands();
    if (chosen.empty() && which == Declared::Called) {
      return parse_and_run(arguments, context, network, Declared::Names);
    }
    if (const auto unknown = app.remaining(); chosen.empty() && !unknown.empty()) {
      return tell(context, failure::kWrongUsage,
                  usage_message(app, CLI::ExtrasError(app.get_name(), unknown), arguments));
    }
    context.out << help_text(chosen.empty() ? app : *chosen.front(), context.width);
    return failure::kDone;
  } catch (const CLI::CallForVersion& version) {
    context.out << version.what() << '\n';
    return failure::kDone;
  } catch (const CLI::ParseError& error) {
    if (which != Declared::All) return parse_and_run(arguments, context, network, Declared::All);
    refuse_empty_values(app);
    return tell(context, failure::kWrongUsage, usage_message(app, error, arguments));
  }
  refuse_empty_values(app);
  if (pending.is_over_network && network.elsewhere) return network.elsewhere();
  const terminal::Session session(context, options);
  session.settle_zone();
  return pending.run ? pending.run(session) : run_status(session, false);
}

// The world with everything that a person is shown made inert.
terminal::Context inert(terminal::Context& world, std::ostream& out, std::ostream& err,
                        const std::optional<std::string>& characters) {
  terminal::Context shown{.out = out,
                          .err = err,
                          .now = world.now,
                          .environment = world.environment,
                          .device = world.device,
                          .login = world.login,
                          .folder = world.folder,
                          .width = world.width,
                          .terminal = world.terminal,
                          .key = world.key,
                          .line = world.line,
                          .keyboard = world.keyboard,
                          .pause = world.pause,
                          .answer = {},
                          .input = world.input,
                          .errors_on_terminal = world.errors_on_terminal,
                          .height = world.height,
                          .patience = world.patience,
                          .documents = &world.out,
                          .pager = {}};
  if (world.answer) {
    shown.answer = [&world, characters](const std::string& prompt, std::string_view keys) {
      return world.answer(terminal::LocaleText(characters).put(quantity::visible_lines(prompt)),
                          keys);
    };
  }
  if (world.pager) {
    shown.pager = [&world, characters](const std::string& text) {
      std::ostringstream page;
      terminal::InertStream(page, characters) << text << std::flush;
      world.pager(page.str());
    };
  }
  return shown;
}

// The logbook that these words name, which may be followed by nothing; empty for none.
std::string named_log(std::span<const std::string> words) {
  constexpr std::string_view kAssigned = "--log=";
  std::string named;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i].starts_with(kAssigned)) named = words[i].substr(kAssigned.size());
    if (words[i] == "--log" && i + 1 < words.size()) named = words[i + 1];
  }
  return named;
}

// Tells a shell what may be typed next. A shell that asks wants no messages, and no waiting for
// another program.
int complete(const std::vector<std::string>& arguments, terminal::Context& world,
             const Network& network) {
  std::ostringstream unsaid;
  auto context = inert(world, unsaid, unsaid, std::nullopt);
  context.patience = std::chrono::milliseconds(0);
  try {
    CLI::App app{kAbout, "boltwitness"};
    terminal::GlobalOptions options;
    Pending pending{.run = {}, .network = network};
    const std::span<const std::string> words(arguments.begin() + 1, arguments.end());
    declare(app, options, pending, Declared::All, arguments);
    options.log = named_log(words.first(words.empty() ? 0 : words.size() - 1));
    const terminal::Session session(context, options);
    world.out << quantity::visible_lines(completions(app, words, session));
  } catch (const std::exception&) {
    // No logbook, or none that can be read: nothing to offer.
  }
  return failure::kDone;
}

}  // namespace

int run(const std::vector<std::string>& arguments, terminal::Context& world,
        const Network& network) {
  if (!arguments.empty() && arguments.front() == kCompleteCommand) {
    return complete(arguments, world, network);
  }
  const auto characters = terminal::locale_characters(world.environment);
  terminal::InertStream out(world.out, characters);
  terminal::InertStream err(world.err, characters);
  terminal::LocaleText line(characters);
  const words::GivenAs given(line.stays()
                                 ? words::GivenAs::Change()
                                 : [&line](std::string_view text) { return line.put_line(text); });
  auto context = inert(world, out, err, characters);
  try {
    // Help knows every command, however it is called.
    const bool all = std::ranges::find(arguments, kHelpCommand) != arguments.end();
    const int code =
        parse_and_run(arguments, context, network, all ? Declared::All : Declared::Called);
    context.out.flush();
    if (!context.out)
      return tell(context, failure::kLogbookTrouble,
                  fmt::format("the answer could not be written out in full (is the disk full?); "
                              "what was recorded before is safe{}",
                              logbook::limit_on_files()));
    return code;
  } catch (const failure::Failure& error) {
    return tell(context, error.exit_code(), error.what());
  } catch (const std::bad_alloc&) {
    return tell(context, failure::kOurFault, "out of memory; what was recorded before is safe");
  } catch (const std::exception& error) {
    return tell(
        context, failure::kOurFault,
        fmt::format("a fault of this program: {}; what was recorded before is safe", error.what()));
  }
}

}  // namespace cli
