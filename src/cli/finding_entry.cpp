#include "cli/finding_entry.h"

#include <fmt/format.h>

#include "cli/lookup.h"
#include "cli/option_error.h"
#include "failure/failure.h"
#include "finding/plausibility.h"
#include "finding/survey.h"
#include "screen/finding_answer.h"
#include "words/line_text.h"

namespace cli {
namespace {

// A finding is a fact and is kept; but a torque that the fastener cannot carry is often a slip.
void remark_on_plausibility(const finding::JointState& joint, const finding::Finding& found,
                            const terminal::Session& session) {
  const auto& measured = found.entry->content;
  const auto* specified = joint.at(measured.position).specified;
  const auto limits = finding::bolt_limits(
      *joint.joint, specified == nullptr ? fastener::Condition::AsReceived : specified->condition);
  auto torque = found.torque.reference();
  if (measured.prevailing) torque = torque - measured.prevailing->torque();
  // An adhesive takes a part of the torque: what the bolt carries is then not known.
  if (!limits || !limits->friction_known) return;
  if (found.torque.basis == finding::Basis::UpperBound) return;
  if (finding::plausibility_of(torque, *limits) != finding::Plausibility::TooMuch) return;
  session.remark(finding::plausibility_text(
                     {quantity::in_unit(torque, measured.unit), measured.unit}, *limits) +
                 "; recorded as found");
}

}  // namespace

record::Measured test_without_readings(const record::Joint& joint, int position,
                                       const record::Wrench& wrench) {
  record::Measured test;
  test.joint = joint.code;
  test.position = position;
  test.wrench = wrench.name;
  test.unit = wrench.scale.unit;
  return test;
}

void check_on_scale(const record::Measured& measured, const record::Wrench& wrench) {
  const double last = measured.readings.empty() ? 0.0 : measured.readings.back().setting;
  if (last > wrench.scale.high) {
    throw failure::InputError(fmt::format(
        "{} cannot be set to {}: its scale is {}; check the setting and the wrench", wrench.name,
        quantity::write_exact(quantity::StatedTorque{last, wrench.scale.unit}),
        record::write_exact(wrench.scale)));
  }
}

void check_finding(const record::Measured& measured, const record::Wrench& wrench) {
  of_option("readings", [&] { check_on_scale(measured, wrench); });
  of_option("--prevailing", [&] {
    finding::check_prevailing(
        measured, finding::found_torque(measured, wrench, quantity::Percent::of_hundred(0)));
  });
}

void remark_on_marks(const record::Measured& measured, const record::Wrench& wrench,
                     const terminal::Session& session) {
  for (const auto& reading : measured.readings) {
    if (!finding::is_between_marks(measured, wrench, reading.setting)) continue;
    session.remark(fmt::format(
        "{} is between two marks of {}, which has one every {}; check the setting",
        quantity::write_exact(reading.setting), wrench.name,
        quantity::write_exact(quantity::StatedTorque{wrench.graduation, wrench.scale.unit})));
    return;
  }
}

record::Stamp record_finding(const terminal::Session& session, const TestedFastener& tested,
                             const MakeFinding& make) {
  auto logbook = session.open_to_write();
  logbook::Recording recording(logbook, session.writer());
  strike_replaced(logbook, recording, tested.correction, {"finding"});
  const auto joint = joint_or_refuse(logbook, tested.address.joint).content;
  check_positions(joint, tested.address.positions);
  const auto wrench = wrench_or_refuse(logbook, tested.wrench).content;
  const auto measured = make(logbook, joint, wrench);
  check_finding(measured, wrench);
  remark_on_marks(measured, wrench, session);
  auto stamp = recording.append(measured);
  recording.commit();
  session.recorded({{stamp, words::line_text(measured)}});

  const auto job = logbook.job_of(joint.code);
  const auto state = finding::survey(job);
  const auto* joint_state = finding::joint_in(state, joint.code);
  const auto& found = *joint_state->at(measured.position).finding();
  remark_on_plausibility(*joint_state, found, session);
  if (!session.json()) {
    session.out() << screen::finding_text(*joint_state, found, job.start, session.page());
  }
  return stamp;
}

}  // namespace cli
