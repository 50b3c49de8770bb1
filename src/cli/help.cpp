#include "cli/help.h"

#include <CLI/CLI.hpp>
#include <string_view>
#include <vector>

#include "words/text.h"

namespace cli {
namespace {

// A term and what it means; the meaning starts on the next line where the term is too long.
std::string entry(const std::string& term, const std::string& meaning, std::size_t width) {
  constexpr std::size_t kMeaningColumn = 22;
  const std::string indent(kMeaningColumn, ' ');
  const std::string start = "  " + term + "  ";
  if (words::display_width(start) > kMeaningColumn) {
    return "  " + term + '\n' + words::wrapped(meaning, width, indent, indent);
  }
  return words::wrapped(meaning, width, words::padded_right(start, kMeaningColumn), indent);
}

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

// What a command does, without what else is to be known of it: the page of all of them is read for
// the name of one.
std::string in_short(const std::string& description) {
  return description.substr(0, description.find_first_of(";:"));
}

std::string usage(const CLI::App& command, std::size_t width) {
  const bool whole_program = command.get_parent() == nullptr;
  std::string line = whole_program ? "boltwitness COMMAND" : "boltwitness " + command.get_name();
  for (const auto* option : options_of(command, true)) {
    const auto term = term_of(*option);
    line += option->get_required() ? " " + term : " [" + term + "]";
  }
  for (const auto* option : options_of(command, false)) {
    if (option->get_required()) line += " " + term_of(*option);
  }
  return words::wrapped(line + " [options]", width, "  ", "      ");
}

}  // namespace

std::string help_text(const CLI::App& command, std::size_t width) {
  const bool whole_program = command.get_parent() == nullptr;
  std::string text = words::wrapped(command.get_description(), width, "", "");
  text += '\n' + usage(command, width) + '\n';
  const auto commands = command.get_subcommands({});
  std::string part;
  for (const auto* each : commands) {
    if (each->get_group() != part) {
      part = each->get_group();
      text += part + '\n';
    }
    text += entry(each->get_name(), in_short(each->get_description()), width);
  }
  if (!commands.empty()) {
    text += words::wrapped("boltwitness help COMMAND tells all about one", width, "", "  ") +
            "Options\n";
  }
  for (const bool positional : {true, false}) {
    for (const auto* option : options_of(command, positional)) {
      text += entry(term_of(*option), option->get_description(), width);
    }
  }
  if (!whole_program) {
    text +=
        entry("--log, --by, --at, --json, --no-color", "As \"boltwitness --help\" tells", width);
  }
  if (whole_program) text += '\n' + words::wrapped(command.get_footer(), width, "", "");
  return text;
}

}  // namespace cli
