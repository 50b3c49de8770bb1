#include "cli/merge.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <optional>

#include "act/copy_merge.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "screen/merge_answer.h"
#include "terminal/progress_bar.h"
#include "terminal/session.h"
#include "terminal/stop_key.h"
#include "words/text.h"

namespace cli {

void declare_merge(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<MergeOptions>();
  command
      .add_option("OTHER", options->copy,
                  "The copy, such as /media/phone/gb1.bolts; it is only read")
      ->required();
  command.add_flag("--check", options->check, "Only say what would come; nothing is written");
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_merge(*options, session);
    };
  });
}

int run_merge(const MergeOptions& options, const terminal::Session& session) {
  const auto copy = session.reachable(options.copy);
  auto logbook = options.check ? session.open_to_try() : session.open_to_write();
  terminal::StopKey stop_key;
  std::optional<terminal::ProgressBar> bar;
  const logbook::MergeProgress progress{[&](std::string_view what, std::size_t lines) {
                                          bar.emplace(session, std::string(what), lines);
                                        },
                                        [&] { bar->step(); }, [&] { stop_key.about_to_write(); }};
  const auto done = act::merge_copy(logbook, copy, session.done_at(), progress, session.waiting());
  bar.reset();
  const auto& merged = done.merged;
  const screen::MergeMade made{.file = options.copy,
                               .written = !options.check,
                               .lines = done.lines,
                               .unreadable = merged.unreadable,
                               .no_copy_holds = merged.no_copy_holds,
                               .lines_of_copy = merged.lines_of_copy,
                               .is_ahead = merged.is_ahead(),
                               .signatures = merged.new_signatures,
                               .moved = merged.moved,
                               .first_moved = merged.first_moved,
                               .first_moved_to = done.first_moved_to,
                               .kept = done.kept,
                               .audit = &done.after->audit,
                               .opened = done.opened};
  session.out() << (session.json() ? screen::merge_json(made)
                                   : screen::merge_text(made, session.prose_page()))
                << std::flush;
  if (!session.out() && made.written) {
    throw failure::OutputLost(
        fmt::format("the merge is done ({} taken over), but its answer could not be written out in "
                    "full (is the disk full?); \"boltwitness audit\" tells what contradicts",
                    words::counted(made.taken_over(), "line")));
  }
  return failure::kDone;
}

}  // namespace cli
