#include "cli/command_terms.h"

#include <CLI/CLI.hpp>
#include <algorithm>

namespace cli {
namespace {

// The one that CLI11 gives to an option that was put into none.
constexpr const char* kNoGroup = "Options";

}  // namespace

std::vector<const CLI::Option*> options_of(const CLI::App& command, bool positional) {
  std::vector<const CLI::Option*> options;
  for (const auto* option : command.get_options()) {
    if (option->get_positional() == positional) options.push_back(option);
  }
  return options;
}

std::vector<OptionGroup> option_groups_of(const CLI::App& command) {
  std::vector<OptionGroup> groups{{{}, options_of(command, true)}};
  OptionGroup last{kOfEveryCommand, {}};
  for (const auto* option : options_of(command, false)) {
    const auto title = option->get_group() == kNoGroup ? std::string() : option->get_group();
    if (title == last.title) {
      last.options.push_back(option);
      continue;
    }
    auto group = std::ranges::find(groups, title, &OptionGroup::title);
    if (group == groups.end()) group = groups.insert(group, {title, {}});
    group->options.push_back(option);
  }
  if (!last.options.empty()) groups.push_back(std::move(last));
  return groups;
}

std::string value_of(const CLI::Option& option) {
  const auto& text = option.get_option_text();
  return text.empty() && option.get_positional() ? option.get_name() : text;
}

std::string term_of(const CLI::Option& option) {
  if (option.get_positional()) return value_of(option);
  std::string term;
  for (const auto& name : option.get_snames()) term += "-" + name + ", ";
  term += "--" + option.get_lnames().front();
  if (const auto value = value_of(option); !value.empty()) term += " " + value;
  return term;
}

std::string usage_of(const CLI::App& command) {
  const bool whole_program = command.get_parent() == nullptr;
  std::string line = whole_program ? "boltwitness COMMAND" : "boltwitness " + command.get_name();
  for (const auto* option : options_of(command, true)) {
    const auto term = term_of(*option);
    line += option->get_required() ? " " + term : " [" + term + "]";
  }
  for (const auto* option : options_of(command, false)) {
    if (option->get_required()) line += " " + term_of(*option);
  }
  return line + " [options]";
}

}  // namespace cli
