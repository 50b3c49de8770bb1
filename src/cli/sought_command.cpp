#include "cli/sought_command.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "manual/looked_for.h"

namespace cli {
namespace {

constexpr std::array kSought = {
    SoughtCommand{"next todo", "\"boltwitness\" alone tells the next step"},
    SoughtCommand{"restore recover revert rollback",
                  "going back is copying a copy back: \"boltwitness help copies\" tells how"},
    SoughtCommand{"undo delete del rm erase drop discard",
                  "no line is removed; a wrong one is struck: \"boltwitness strike LINE --why "
                  "TEXT\", with its number out of \"boltwitness history\""},
    SoughtCommand{"remove",
                  "fasteners that come out are recorded with \"boltwitness out\"; no line is "
                  "removed, a wrong one is struck: \"boltwitness strike LINE --why TEXT\""},
    SoughtCommand{"edit change modify correct amend update fix replace",
                  "no line is changed; the command that wrote a wrong one writes it anew with "
                  "--replace LINE --why TEXT, its number out of \"boltwitness history\""},
    SoughtCommand{"new create init open",
                  "\"boltwitness start FILE\" starts a logbook, and --log FILE names one that is "
                  "there"},
    SoughtCommand{"save copy archive",
                  "what was told as written is on the disk; \"boltwitness backup\" makes a copy"},
    SoughtCommand{"sync combine join unite", "\"boltwitness merge FILE\" makes two copies one"},
    SoughtCommand{"list ls lines log",
                  "\"boltwitness history\" lists the lines, \"boltwitness show\" a joint"},
    SoughtCommand{"view display info position", "\"boltwitness show J06\" shows a joint"},
    SoughtCommand{"find grep", "\"boltwitness search WORDS\" finds lines"},
    SoughtCommand{"check validate",
                  "\"boltwitness audit\" tells what is to be settled, \"boltwitness verify\" "
                  "whether any line was changed"},
    SoughtCommand{"test measure reading readings",
                  "a found-torque test is recorded with \"boltwitness found\""},
    SoughtCommand{"loosen teardown disassemble",
                  "\"boltwitness bench\" leads through a teardown, \"boltwitness out\" records "
                  "what came out"},
    SoughtCommand{"torque retorque assemble reassemble",
                  "a pass is recorded with \"boltwitness tighten\""},
    SoughtCommand{"mark witness", "the final stripe is recorded with \"boltwitness stripe\""},
    SoughtCommand{"plan order passes",
                  "\"boltwitness sequence\" is the order of reassembly with its passes"},
    SoughtCommand{"decide resolve close", "a deviation is decided with \"boltwitness settle\""},
    SoughtCommand{"deviations holds", "\"boltwitness audit\" tells the deviations"},
    SoughtCommand{"print pdf page",
                  "sheet, sequence, report and labels print: \"boltwitness help paper\""},
    SoughtCommand{"csv json dump", "\"boltwitness export\" writes the logbook or a table of it"},
    SoughtCommand{"load", "\"boltwitness import FILE\" takes in a table or a whole logbook"},
    SoughtCommand{"picture image", "\"boltwitness photo\" keeps a photograph"},
    SoughtCommand{"unit units", "\"boltwitness convert\" converts a torque"},
    SoughtCommand{"add enter record",
                  "joint, wrench, item and the others each enter what they name: \"boltwitness "
                  "--help\" lists them"},
};

bool has_word(std::string_view words, std::string_view word) {
  while (!words.empty()) {
    const auto each = words.substr(0, words.find(' '));
    if (each == word) return true;
    words.remove_prefix(std::min(words.size(), each.size() + 1));
  }
  return false;
}

}  // namespace

std::span<const SoughtCommand> sought_commands() { return kSought; }

std::string command_instead_of(std::string_view word) {
  const auto wanted = manual::as_looked_for(word);
  for (const auto& [words, instead] : sought_commands()) {
    if (has_word(words, wanted)) return fmt::format("; {}", instead);
  }
  return {};
}

std::string page_instead_of(std::string_view word) {
  const auto* page = manual::page_about(word);
  return page == nullptr ? std::string()
                         : fmt::format("; \"boltwitness help {}\" tells of it", page->name);
}

}  // namespace cli
