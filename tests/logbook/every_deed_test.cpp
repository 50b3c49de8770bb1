// What is tortured with commands of every kind (support/every_deed.h) leaves out no kind of line
// and no command that writes one.

#include "support/every_deed.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <set>

#include "cli/commands.h"
#include "record/content.h"
#include "support/catch.h"
#include "support/trial.h"

namespace every_deed_test {

namespace {

// Commands that write no line of a logbook and no copy of one; serve and fleet have tests of their
// own for what they do to a disk.
const std::set<std::string> kNotDeeds = {
    "status", "show",   "compare", "audit", "sequence", "search", "history", "verify", "sheet",
    "report", "labels", "convert", "bolt",  "adapter",  "help",   "serve",   "fleet"};

}  // namespace

TEST_CASE("every deed leaves a line of every kind, by every command that writes", "[logbook]") {
  Trial trial;
  const auto path = trial.folder().file("p4.bolts");
  trial.environment["BOLTWITNESS_LOG"] = path;
  trial.environment["XDG_DATA_HOME"] = trial.folder().file("own");
  std::set<std::string> typed;
  for (const auto& deed : every_deed(trial.folder(), path)) {
    trial.typed = deed.typed;
    trial.done(deed.command);
    typed.insert(words_of(deed.command).front());
  }
  std::set<std::string> kinds;
  {
    SQLite::Database shell(path);
    SQLite::Statement kind(shell, "SELECT DISTINCT kind FROM entry");
    while (kind.executeStep()) kinds.insert(kind.getColumn(0).getString());
  }
  record::Kinds::for_each([&]<class Kind>() {
    const auto word = std::string(record::Kinds::word_of<Kind>());
    INFO("kind " << word);
    CHECK(kinds.contains(word));
  });
  CHECK(kinds.size() == record::Kinds::kCount);
  std::set<std::string> commands;
  for (const auto& part : cli::command_parts()) {
    for (const auto& command : part.commands) commands.insert(command.name);
  }
  for (const auto& command : commands) {
    INFO("command " << command);
    CHECK(typed.contains(command) != kNotDeeds.contains(command));
  }
  for (const auto& name : kNotDeeds) CHECK(commands.contains(name));
}

}  // namespace every_deed_test
