#include "cli/command_terms.h"

#include <CLI/CLI.hpp>

namespace cli {

std::vector<const CLI::Option*> options_of(const CLI::App& command, bool positional) {
  std::vector<const CLI::Option*> options;
  for (const auto* option : command.get_options()) {
    if (option->get_positional() == positional) options.push_back(option);
  }
  return options;
}

std::string term_of(const CLI::Option& option) {
  if (option.get_positional()) return option.get_option_text();
  std::string term;
  for (const auto& name : option.get_snames()) term += "-" + name + ", ";
  term += "--" + option.get_lnames().front();
  if (!option.get_option_text().empty()) term += " " + option.get_option_text();
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
