#include "cli/help.h"

#include <CLI/CLI.hpp>

#include "cli/command_terms.h"
#include "manual/examples.h"
#include "screen/typed_lines.h"
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

// What a command does, without what else is to be known of it: the page of all of them is read for
// the name of one.
std::string in_short(const std::string& description) {
  return description.substr(0, description.find_first_of(";:"));
}

}  // namespace

std::string help_text(const CLI::App& command, std::size_t width) {
  const bool whole_program = command.get_parent() == nullptr;
  std::string text = words::wrapped(command.get_description(), width, "", "");
  text += '\n' + words::wrapped(usage_of(command), width, "  ", "      ") + '\n';
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
  for (const auto& [title, options] : option_groups_of(command)) {
    if (!title.empty()) text += title + '\n';
    for (const auto* option : options) {
      text += entry(term_of(*option), option->get_description(), width);
    }
  }
  if (!whole_program) {
    text +=
        entry("--log, --by, --at, --json, --no-color", "As \"boltwitness --help\" tells", width);
  }
  if (const auto* shown = manual::examples_of(command.get_name()); shown && !whole_program) {
    text += "\nExamples\n" + screen::typed_lines(shown->typed, width);
    if (!shown->see.empty())
      text += '\n' + words::wrapped("See also: " + shown->see, width, "", "");
  }
  if (whole_program) text += '\n' + words::wrapped(command.get_footer(), width, "", "");
  return text;
}

}  // namespace cli
