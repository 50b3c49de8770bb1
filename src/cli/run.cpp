#include "cli/run.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <exception>
#include <new>

#include "cli/adapter.h"
#include "cli/audit.h"
#include "cli/bolt.h"
#include "cli/compare.h"
#include "cli/convert.h"
#include "cli/errors.h"
#include "cli/exit_code.h"
#include "cli/fluid.h"
#include "cli/found.h"
#include "cli/help.h"
#include "cli/history.h"
#include "cli/hold_point.h"
#include "cli/item.h"
#include "cli/joint.h"
#include "cli/lookup.h"
#include "cli/out.h"
#include "cli/pending.h"
#include "cli/recheck.h"
#include "cli/renew.h"
#include "cli/sequence.h"
#include "cli/session.h"
#include "cli/start.h"
#include "cli/strike.h"
#include "cli/stripe.h"
#include "cli/tighten.h"
#include "cli/wrench.h"
#include "logbook/logbook_error.h"
#include "plan/reassembly_plan.h"
#include "quantity/input_error.h"
#include "quantity/number_text.h"

namespace cli {
namespace {

constexpr const char* kVersion = BOLTWITNESS_VERSION;

constexpr const char* kAbout =
    "Logbook for witness marks and torque: what came out, at what torque it was found, what is "
    "specified, and in which order it all goes back.";

constexpr const char* kFooter =
    "The maker's current manual and local rules outrank this logbook.\n"
    "Break loose with a breaker bar, never with the torque wrench.";

void declare_global_options(CLI::App& app, GlobalOptions& options) {
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

void declare_commands(CLI::App& app, Pending& pending) {
  declare_start(app, pending);
  declare_wrench(app, pending);
  declare_joint(app, pending);
  declare_out(app, pending);
  declare_found(app, pending);
  declare_fluid(app, pending);
  declare_item(app, pending);
  declare_hold_point(app, pending);
  declare_compare(app, pending);
  declare_audit(app, pending);
  declare_renew(app, pending);
  declare_sequence(app, pending);
  declare_tighten(app, pending);
  declare_stripe(app, pending);
  declare_recheck(app, pending);
  declare_history(app, pending);
  declare_strike(app, pending);
  declare_convert(app, pending);
  declare_bolt(app, pending);
  declare_adapter(app, pending);
  // Global options may stand behind the command as well.
  for (auto* command : app.get_subcommands({})) {
    command->fallthrough();
    command->set_help_flag("-h,--help", "This page");
  }
}

// The first word that is no option and no option's value: what was meant as the command.
std::string meant_command(const std::vector<std::string>& arguments) {
  for (std::size_t i = 0; i < arguments.size(); ++i) {
    const auto& word = arguments[i];
    if (word == "--log" || word == "--by" || word == "--at") {
      ++i;
    } else if (!word.starts_with('-')) {
      return word;
    }
  }
  return {};
}

std::vector<std::string> command_names(const CLI::App& app) {
  std::vector<std::string> names;
  for (const auto* command : app.get_subcommands({})) names.push_back(command->get_name());
  return names;
}

// What is wrong with the command line, with the nearest command or option where one is near.
std::string usage_message(const CLI::App& app, const CLI::ParseError& error,
                          const std::vector<std::string>& arguments) {
  const auto chosen = app.get_subcommands();
  if (chosen.empty()) {
    const auto word = meant_command(arguments);
    if (word.empty()) return "a command is missing; \"boltwitness --help\" lists them";
    return fmt::format("there is no command {}{}", quantity::quoted(word),
                       suggestion(word, command_names(app)));
  }
  const CLI::App* command = chosen.front();
  std::string message = fmt::format("{}: {}", command->get_name(), error.what());
  if (dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr) {
    std::vector<std::string> known;
    for (const auto* options_of : {command, &app}) {
      for (const auto* option : options_of->get_options()) {
        for (const auto& name : option->get_lnames()) known.push_back("--" + name);
      }
    }
    // The option that is not known comes before what was meant as its value.
    const auto extras = app.remaining(true);
    const auto unknown = std::ranges::find_if(
        extras, [](const std::string& word) { return word.starts_with("--"); });
    const auto& word = unknown == extras.end() ? extras.front() : *unknown;
    message = fmt::format("{} does not know {}{}", command->get_name(), quantity::quoted(word),
                          suggestion(word, known));
  }
  return fmt::format("{}\nsee \"boltwitness {} --help\"", message, command->get_name());
}

int tell(Context& context, int code, std::string_view message) {
  context.err << "boltwitness: " << message << '\n';
  return code;
}

int parse_and_run(const std::vector<std::string>& arguments, Context& context) {
  CLI::App app{kAbout, "boltwitness"};
  app.set_help_flag("-h,--help", "This page");
  app.set_version_flag("--version", std::string("boltwitness ") + kVersion,
                       "The version of this program");
  app.footer(kFooter);
  app.require_subcommand(1);
  GlobalOptions options;
  Pending pending;
  declare_global_options(app, options);
  declare_commands(app, pending);

  std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());  // as CLI11 takes them
  try {
    app.parse(reversed);
  } catch (const CLI::CallForHelp&) {
    const auto chosen = app.get_subcommands();
    context.out << help_text(chosen.empty() ? app : *chosen.front(), context.width);
    return kDone;
  } catch (const CLI::CallForVersion& version) {
    context.out << version.what() << '\n';
    return kDone;
  } catch (const CLI::ParseError& error) {
    return tell(context, kWrongUsage, usage_message(app, error, arguments));
  }
  return pending.run(Session(context, options));
}

}  // namespace

int run(const std::vector<std::string>& arguments, Context& context) {
  try {
    const int code = parse_and_run(arguments, context);
    context.out.flush();
    if (!context.out)
      return tell(context, kLogbookTrouble,
                  "the answer could not be written out in full (is the disk full?); what "
                  "was recorded is safe");
    return code;
  } catch (const UsageError& error) {
    return tell(context, kWrongUsage, error.what());
  } catch (const quantity::InputError& error) {
    return tell(context, kWrongUsage, error.what());
  } catch (const Refusal& error) {
    return tell(context, kNotInOrder, error.what());
  } catch (const plan::PlanCycle& error) {
    return tell(context, kNotInOrder, error.what());
  } catch (const logbook::LogbookError& error) {
    const bool exists = error.kind() == logbook::LogbookError::Kind::Exists;
    return tell(context, exists ? kNotInOrder : kLogbookTrouble, error.what());
  } catch (const std::bad_alloc&) {
    return tell(context, kOurFault, "out of memory; what was recorded before is safe");
  } catch (const std::exception& error) {
    return tell(
        context, kOurFault,
        fmt::format("a fault of this program: {}; what was recorded before is safe", error.what()));
  }
}

}  // namespace cli
