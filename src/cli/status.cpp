#include "cli/status.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <optional>

#include "act/outlook.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "logbook/copy_reminder.h"
#include "screen/status_answer.h"
#include "terminal/session.h"
#include "words/text.h"

namespace cli {

void declare_status(CLI::App& command, Pending& pending) {
  auto whole = std::make_shared<bool>(false);
  command.add_flag("--whole", *whole, "With no list cut");
  command.callback([whole, &pending] {
    pending.run = [whole](const terminal::Session& session) { return run_status(session, *whole); };
  });
}

namespace {

void remind_of_copy(const logbook::Uncopied& rest, const terminal::Session& session) {
  const auto lines = words::counted(static_cast<std::size_t>(rest.lines), "line");
  const auto of_day = record::write_day(record::local_day(*rest.since));
  session.remark(
      rest.copied_at
          ? fmt::format("the newest copy is of {}; {} came since, the first on {}: copy it to "
                        "another disk with boltwitness backup FOLDER",
                        record::write_local(*rest.copied_at), lines, of_day)
          : fmt::format("no copy of this logbook is known of; its first line is of {}, and {} "
                        "would be lost with this disk: copy it to another with boltwitness backup "
                        "FOLDER",
                        of_day, lines));
}

}  // namespace

int run_status(const terminal::Session& session, bool whole) {
  std::optional<logbook::Uncopied> rest;
  std::optional<act::Outlook> outlook;
  {
    const auto logbook = session.open_to_read();
    rest = logbook::uncopied(logbook, session.state_folder());
    outlook.emplace(logbook, session.done_at());
  }
  const auto audit = audit::run(outlook->subject());
  const screen::JobStatus status{outlook->reassembly(), outlook->open(), audit, outlook->circle(),
                                 session.done_at()};
  if (session.json()) {
    session.out() << screen::status_json(status);
  } else {
    session.answer_text(screen::status_text(status, whole, session.prose_page()),
                        screen::status_in_short(status, session.prose_page()));
  }
  if (rest->is_due(record::local_day(session.now()))) remind_of_copy(*rest, session);
  return status.is_finished() ? failure::kDone : failure::kNotInOrder;
}

}  // namespace cli
