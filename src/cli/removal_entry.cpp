#include "cli/removal_entry.h"

#include <fmt/format.h>

#include <set>

#include "cli/lookup.h"
#include "cli/tightening_work.h"
#include "failure/failure.h"
#include "progress/teardown.h"
#include "record/address.h"
#include "words/line_text.h"

namespace cli {
namespace {

// `job` is of one joint.
std::set<int> positions_out(const record::Job& job) {
  std::set<int> out;
  for (const auto& [place, teardown] : progress::teardown_of(job)) {
    if (teardown.removal != nullptr) out.insert(place.second);
  }
  return out;
}

}  // namespace

record::Stamp record_removal(const terminal::Session& session, record::Removal removal,
                             const CorrectionOptions& correction) {
  auto logbook = session.open_to_write();
  const auto writer = session.writer();
  logbook::Recording recording(logbook, writer);
  strike_replaced(logbook, recording, correction, {"removal"});
  const auto joint = joint_or_refuse(logbook, removal.joint).content;
  removal.joint = joint.code;
  check_positions(joint, removal.positions);
  const auto job = logbook.job_of(joint.code);
  refuse_behind_hold_point(job, joint.code, writer.done_at);

  auto out = positions_out(job);
  for (const int position : removal.positions) {
    if (out.contains(position)) {
      throw failure::Refusal(fmt::format(
          "{} is recorded as out already; if that line is wrong, give its number with --replace",
          record::write_address(joint.code, position)));
    }
  }
  auto stamp = recording.append(removal);
  recording.commit();

  out.insert(removal.positions.begin(), removal.positions.end());
  session.recorded({{stamp, fmt::format("{}; {} of {} accounted for", words::line_text(removal),
                                        out.size(), joint.count)}});
  return stamp;
}

}  // namespace cli
