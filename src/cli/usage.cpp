#include "cli/usage.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>

#include "act/lookup.h"
#include "cli/command_terms.h"
#include "cli/sought_command.h"
#include "failure/failure.h"
#include "quantity/ascii.h"
#include "quantity/number_text.h"
#include "record/address.h"

namespace cli {
namespace {

[[noreturn]] void refuse_empty(const std::string& name, bool can_be_left_out) {
  throw failure::UsageError(
      fmt::format("{} was given nothing (a shell variable that is not set?); write its value{}",
                  name, can_be_left_out ? ", or leave it out" : ""));
}

void refuse_empty_values_of(const CLI::App& command) {
  for (const auto* option : command.get_options()) {
    for (const auto& value : option->results()) {
      if (!quantity::trimmed(value).empty()) continue;
      refuse_empty(
          option->get_positional() ? option->get_name() : "--" + option->get_lnames().front(),
          !option->get_required());
    }
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

std::vector<std::string> option_names(const CLI::App& app, const CLI::App& command) {
  std::vector<std::string> names;
  for (const auto* options_of : {&command, &app}) {
    for (const auto* option : options_of->get_options()) {
      for (const auto& name : option->get_lnames()) names.push_back("--" + name);
    }
  }
  return names;
}

// "out takes one address; write J06/9-10" where a second address was added to the first; empty
// where that is not what was typed.
std::string address_hint(const CLI::App& command, const std::string& extra) {
  const auto words = options_of(command, true);
  if (words.empty() || words.front()->results().empty()) return {};
  try {
    auto first = record::read_address(words.front()->results().front());
    const auto second = record::read_address(extra);
    if (first.positions.empty() || second.positions.empty()) return {};
    if (!record::same_code(first.joint, second.joint)) {
      return fmt::format("{} takes one address; enter {} by itself", command.get_name(),
                         quantity::quoted(extra));
    }
    auto& all = first.positions;
    all.insert(all.end(), second.positions.begin(), second.positions.end());
    std::ranges::sort(all);
    all.erase(std::unique(all.begin(), all.end()), all.end());
    return fmt::format("{} takes one address; write {}", command.get_name(),
                       record::write_address(first.joint, all));
  } catch (const failure::InputError&) {
    return {};
  }
}

std::string not_known(const CLI::App& app, const CLI::App& command,
                      const std::vector<std::string>& extras) {
  // The option that is not known comes before what was meant as its value.
  const auto unknown =
      std::ranges::find_if(extras, [](const std::string& word) { return word.starts_with('-'); });
  if (unknown != extras.end()) {
    const bool is_specified = unknown->substr(0, unknown->find('=')) == "--torque" &&
                              command.get_option_no_throw("--spec") != nullptr;
    return fmt::format("{} does not know {}{}", command.get_name(), quantity::quoted(*unknown),
                       is_specified ? "; what is specified is --spec"
                                    : act::suggestion(*unknown, option_names(app, command)));
  }
  const auto& word = extras.front();
  if (auto hint = address_hint(command, word); !hint.empty()) return hint;
  if (auto hint = shown_by(word); !hint.empty()) {
    return fmt::format("{} does not know {}{}", command.get_name(), quantity::quoted(word), hint);
  }
  const auto is_unit_like = !word.empty() && quantity::is_letter(word.front());
  return fmt::format("{} does not know {}{}", command.get_name(), quantity::quoted(word),
                     is_unit_like && word.find_first_of("0123456789/") == std::string::npos
                         ? "; put a value of several words in quotes, such as \"80 N·m\""
                         : "");
}

}  // namespace

std::string shown_by(const std::string& word) {
  const bool is_like_code = word.find_first_of("0123456789") != std::string::npos &&
                            !word.empty() && quantity::is_letter(word.front());
  if (!is_like_code) return {};
  try {
    const auto address = record::read_address(word);
    return fmt::format("; a joint or a position is shown by \"boltwitness show {}\"",
                       address.positions.size() == 1
                           ? record::write_address(address.joint, address.positions)
                           : address.joint);
  } catch (const failure::InputError&) {
    return {};
  }
}

void refuse_empty_values(const CLI::App& app) {
  refuse_empty_values_of(app);
  for (const auto* command : app.get_subcommands()) refuse_empty_values_of(*command);
}

void refuse_empty_assignments(const std::vector<std::string>& arguments) {
  for (const auto& word : arguments) {
    if (word == "--") return;
    if (!word.starts_with("--") || !word.ends_with('=')) continue;
    if (word.find('=') + 1 == word.size()) refuse_empty(word.substr(0, word.size() - 1), false);
  }
}

std::string usage_message(const CLI::App& app, const CLI::ParseError& error,
                          const std::vector<std::string>& arguments) {
  const auto chosen = app.get_subcommands();
  if (chosen.empty()) {
    const auto word = meant_command(arguments);
    if (word.empty()) return "a command is missing; \"boltwitness --help\" lists them";
    auto hint = shown_by(word);
    if (hint.empty()) hint = command_instead_of(word);
    if (hint.empty()) hint = act::suggestion(word, command_names(app));
    if (hint.empty()) hint = page_instead_of(word);
    if (hint.empty()) hint = "; \"boltwitness --help\" lists them";
    return fmt::format("there is no command {}{}", quantity::quoted(word), hint);
  }
  const CLI::App& command = *chosen.front();
  const auto extras = app.remaining(true);
  const bool misspelt =
      std::ranges::any_of(extras, [](const std::string& word) { return word.starts_with('-'); });
  const bool extra = dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr;
  const auto message = misspelt || extra ? not_known(app, command, extras)
                                         : fmt::format("{}: {}", command.get_name(), error.what());
  return fmt::format("{}\nsee \"boltwitness {} --help\"", message, command.get_name());
}

}  // namespace cli
