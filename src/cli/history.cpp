#include "cli/history.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>

#include "act/lookup.h"
#include "cli/json_lines_option.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "record/concerns.h"
#include "screen/history_answer.h"
#include "terminal/session.h"

namespace cli {
namespace {

// Says of the lines that cannot be read and are not struck how to go on.
int told_of(logbook::Logbook::Unreadable unreadable, const logbook::Logbook& logbook,
            const terminal::Session& session) {
  std::erase_if(unreadable, [](const auto& line) { return line.struck; });
  if (unreadable.empty()) return failure::kDone;
  const auto strikes = logbook.what_strikes_do(unreadable);
  for (const auto& line : unreadable) {
    session.remark(fmt::format("line {} cannot be read: {}; {}", line.line, line.why,
                               record::how_to_go_on(line, strikes)));
  }
  return failure::kLogbookTrouble;
}

}  // namespace

void declare_history(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<HistoryOptions>();
  command.add_option("JOINT/POSITIONS", options->address, "Only about this, such as J06 or J06/3");
  command.add_flag("--whole", options->whole, "All lines; else, of many, the last");
  declare_json_lines(command, options->json_lines);
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_history(*options, session);
    };
  });
}

int run_history(const HistoryOptions& options, const terminal::Session& session) {
  const auto logbook = session.open_to_read();
  logbook::Logbook::Unreadable unreadable;
  auto lines = logbook.history(unreadable);
  if (!options.address.empty()) {
    const auto address = record::read_address(options.address);
    std::erase_if(lines,
                  [&](const auto& line) { return !record::concerns(line.content, address); });
    // Nothing was ever said of it: then it is a name that this logbook does not know.
    if (lines.empty() && unreadable.empty()) (void)act::joint_or_refuse(logbook, address.joint);
    // Lines that name a position beyond the count are worth seeing; without any it was mistyped.
    const auto joint = unreadable.empty() ? logbook.joint(address.joint) : std::nullopt;
    if (joint && !address.positions.empty() && std::ranges::none_of(lines, [](const auto& line) {
          return record::names_a_position(line.content);
        })) {
      act::check_positions(joint->content, address.positions);
    }
  }
  const auto misfit = logbook.misfit(lines);
  const auto whole = options.whole ? std::string()
                                   : fmt::format("history {}{}--whole", options.address,
                                                 options.address.empty() ? "" : " ");
  if (options.json_lines) {
    session.documents() << screen::history_json_lines(lines, unreadable);
  } else {
    session.out() << (session.json()
                          ? screen::history_json(lines, unreadable)
                          : screen::history_text(lines, unreadable, whole, session.prose_page()));
  }
  if (misfit) {
    session.remark(*misfit);
    (void)told_of(unreadable, logbook, session);
    return failure::kLogbookTrouble;
  }
  return told_of(unreadable, logbook, session);
}

}  // namespace cli
