#include "cli/out.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <map>
#include <set>

#include "cli/errors.h"
#include "cli/exit_code.h"
#include "cli/label.h"
#include "cli/lookup.h"
#include "cli/pending.h"
#include "cli/session.h"
#include "cli/tightening_work.h"
#include "fastener/thread_text.h"
#include "quantity/length_text.h"
#include "record/address.h"
#include "report/line_text.h"

namespace cli {
namespace {

record::Removal removal_from(const OutOptions& options, const record::Joint& joint,
                             std::vector<int> positions) {
  record::Removal removal;
  removal.joint = joint.code;
  removal.positions = std::move(positions);
  if (!options.broke.empty()) {
    removal.broke = record::read_word<record::BreakLoose>(options.broke);
  }
  removal.marked = !options.no_mark;
  if (!options.damaged_thread.empty()) {
    removal.damaged_thread = record::read_word<record::DamagedThread>(options.damaged_thread);
  }
  removal.bag = read_optional_label(options.bag, "--bag", 80);
  removal.note = read_optional_label(options.note, "--note", 1000);
  if (!options.length.empty()) {
    removal.other_length = quantity::read_length(options.length);
    removal.other_length_typed = read_label(options.length, "--length");
  }
  if (!options.size.empty()) {
    removal.other_size = fastener::write_exact(fastener::read_thread(options.size));
  }
  if (!options.grade.empty()) {
    removal.other_grade = read_grade_or_label(options.grade);
  }
  return removal;
}

// Positions of the joint that are recorded as out and have not been tightened since: a joint may be
// opened more than once.
std::set<int> positions_out(const record::Job& job) {
  std::map<int, const record::Stamp*> out;
  for (const auto& entry : job.removals) {
    for (const int position : entry.content.positions) {
      auto& last = out[position];
      if (last == nullptr || record::is_later(entry.stamp, *last)) last = &entry.stamp;
    }
  }
  for (const auto& entry : job.tightenings) {
    if (record::is_skipped(entry.content)) continue;
    for (const int position : entry.content.positions) {
      const auto found = out.find(position);
      if (found != out.end() && record::is_later(entry.stamp, *found->second)) out.erase(found);
    }
  }
  std::set<int> positions;
  for (const auto& [position, stamp] : out) positions.insert(position);
  return positions;
}

}  // namespace

void declare_out(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<OutOptions>();
  auto* command = app.add_subcommand("out", "Record fasteners as they come out");
  command->add_option("ADDRESS", options->address, "Which ones, such as J06/1-14 or J06/3,5")
      ->required()
      ->option_text("JOINT/POSITIONS");
  command
      ->add_option("--broke", options->broke,
                   "How it broke loose: normal (the default), tight, seized, loose (it was loose "
                   "already), sheared, empty (no fastener in the hole)")
      ->option_text("WORD");
  command
      ->add_option("--damaged-thread", options->damaged_thread,
                   "A thread is torn, pulled or crossed: that of the fastener, the hole, or both")
      ->option_text("WHERE");
  command->add_flag("--no-mark", options->no_mark, "No teardown mark was drawn");
  command->add_option("--bag", options->bag, "Where they are kept")->option_text("TEXT");
  command->add_option("--note", options->note, "Anything worth knowing")->option_text("TEXT");
  command
      ->add_option("--length", options->length,
                   "Length that came out, where it is not the joint's own")
      ->option_text("LENGTH");
  command
      ->add_option("--size", options->size, "Thread that came out, where it is not the joint's own")
      ->option_text("THREAD");
  command
      ->add_option("--grade", options->grade,
                   "Grade that came out, where it is not the joint's own")
      ->option_text("GRADE");
  declare_correction(*command, options->correction);
  command->callback([options, &pending] {
    pending.run = [options](const Session& session) { return run_out(*options, session); };
  });
}

int run_out(const OutOptions& options, const Session& session) {
  auto address = record::read_address(options.address);
  auto logbook = session.open_to_write();
  const auto writer = session.writer();
  logbook::Recording recording(logbook, writer);
  strike_replaced(logbook, recording, options.correction, {"removal"});
  const auto joint = joint_or_refuse(logbook, address.joint).content;
  check_positions(joint, address.positions);
  const auto job = logbook.job_of(joint.code);
  refuse_behind_hold_point(job, joint.code, writer.done_at);

  auto out = positions_out(job);
  for (const int position : address.positions) {
    if (out.contains(position)) {
      throw Refusal(fmt::format(
          "{} is recorded as out already; if that line is wrong, give its number with --replace",
          record::write_address(joint.code, position)));
    }
  }
  const auto removal = removal_from(options, joint, std::move(address.positions));
  const auto stamp = recording.append(removal);
  recording.commit();

  out.insert(removal.positions.begin(), removal.positions.end());
  session.recorded({{stamp, fmt::format("{}; {} of {} accounted for", report::line_text(removal),
                                        out.size(), joint.count)}});
  return kDone;
}

}  // namespace cli
