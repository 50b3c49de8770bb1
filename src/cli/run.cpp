#include "cli/run.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <exception>
#include <new>
#include <span>
#include <sstream>
#include <string_view>

#include "cli/adapter.h"
#include "cli/audit.h"
#include "cli/backup.h"
#include "cli/bench.h"
#include "cli/bolt.h"
#include "cli/compare.h"
#include "cli/completion.h"
#include "cli/convert.h"
#include "cli/export.h"
#include "cli/fleet.h"
#include "cli/fluid.h"
#include "cli/found.h"
#include "cli/help.h"
#include "cli/help_topic.h"
#include "cli/history.h"
#include "cli/hold_point.h"
#include "cli/import.h"
#include "cli/item.h"
#include "cli/joint.h"
#include "cli/labels.h"
#include "cli/merge.h"
#include "cli/network.h"
#include "cli/out.h"
#include "cli/pending.h"
#include "cli/photo.h"
#include "cli/recheck.h"
#include "cli/renew.h"
#include "cli/report.h"
#include "cli/search.h"
#include "cli/sequence.h"
#include "cli/serve.h"
#include "cli/settle.h"
#include "cli/sheet.h"
#include "cli/show.h"
#include "cli/sign.h"
#include "cli/start.h"
#include "cli/status.h"
#include "cli/strike.h"
#include "cli/stripe.h"
#include "cli/tighten.h"
#include "cli/usage.h"
#include "cli/verify.h"
#include "cli/wrench.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "quantity/visible_text.h"
#include "terminal/inert_stream.h"
#include "terminal/locale_characters.h"
#include "terminal/session.h"
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

struct Command {
  std::string_view name;
  void (*declare)(CLI::App& app, Pending& pending);
};

struct Part {
  std::string_view title;
  std::vector<Command> commands;
};

// What is asked most often first, then in the order of a job; which is the order of the help.
const std::vector<Part>& parts() {
  static const std::vector<Part> all = {
      {"How it stands",
       {{"status", declare_status},
        {"show", declare_show},
        {"compare", declare_compare},
        {"audit", declare_audit},
        {"recheck", declare_recheck}}},
      {"To begin with",
       {{"start", declare_start},
        {"wrench", declare_wrench},
        {"joint", declare_joint},
        {"hold-point", declare_hold_point}}},
      {"Teardown",
       {{"bench", declare_bench},
        {"out", declare_out},
        {"found", declare_found},
        {"fluid", declare_fluid},
        {"item", declare_item},
        {"photo", declare_photo}}},
      {"Before it goes back", {{"settle", declare_settle}, {"renew", declare_renew}}},
      {"Reassembly",
       {{"sequence", declare_sequence}, {"tighten", declare_tighten}, {"stripe", declare_stripe}}},
      {"At the machine", {{"serve", declare_serve}}},
      {"The lines themselves",
       {{"search", declare_search},
        {"history", declare_history},
        {"strike", declare_strike},
        {"verify", declare_verify},
        {"sign", declare_sign},
        {"backup", declare_backup},
        {"merge", declare_merge},
        {"export", declare_export},
        {"import", declare_import}}},
      {"On paper",
       {{"sheet", declare_sheet}, {"report", declare_report}, {"labels", declare_labels}}},
      {"Many machines", {{"fleet", declare_fleet}}},
      {"Without a logbook",
       {{"convert", declare_convert},
        {"bolt", declare_bolt},
        {"adapter", declare_adapter},
        {"help", declare_help_topic}}},
  };
  return all;
}

enum class Declared { Named, All };

// Most of what is declared is options of commands that nobody called; only a message, the first
// page of the help and the pages for man need them all.
void declare_commands(CLI::App& app, Pending& pending, Declared which,
                      const std::vector<std::string>& arguments) {
  for (const auto& part : parts()) {
    for (const auto& command : part.commands) {
      if (which == Declared::Named &&
          std::ranges::find(arguments, command.name) == arguments.end()) {
        continue;
      }
      command.declare(app, pending);
      app.get_subcommand(std::string(command.name))->group(std::string(part.title));
    }
  }
  // Global options may stand behind the command as well.
  for (auto* command : app.get_subcommands({})) {
    command->fallthrough();
    command->set_help_flag("-h,--help", "This page");
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
    if (chosen.empty() && which == Declared::Named) {
      return parse_and_run(arguments, context, network, Declared::All);
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
    if (which == Declared::Named) return parse_and_run(arguments, context, network, Declared::All);
    refuse_empty_values(app);
    return tell(context, failure::kWrongUsage, usage_message(app, error, arguments));
  }
  refuse_empty_values(app);
  if (pending.is_over_network && network.elsewhere) return network.elsewhere();
  const terminal::Session session(context, options);
  session.remark_on_zone();
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
  auto context = inert(world, out, err, characters);
  try {
    const bool all = std::ranges::find(arguments, kManPagesOption) != arguments.end();
    const int code =
        parse_and_run(arguments, context, network, all ? Declared::All : Declared::Named);
    context.out.flush();
    if (!context.out)
      return tell(context, failure::kLogbookTrouble,
                  "the answer could not be written out in full (is the disk full?); what was "
                  "recorded before is safe");
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
