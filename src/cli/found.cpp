#include "cli/found.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "cli/errors.h"
#include "cli/exit_code.h"
#include "cli/label.h"
#include "cli/lookup.h"
#include "cli/pending.h"
#include "cli/session.h"
#include "finding/found_torque.h"
#include "finding/grade.h"
#include "finding/next_setting.h"
#include "finding/plausibility.h"
#include "finding/survey.h"
#include "quantity/length_text.h"
#include "record/address.h"
#include "report/finding_report.h"
#include "report/line_text.h"
#include "report/next_setting_report.h"

namespace cli {
namespace {

record::Measured measured_from(const FoundOptions& options, const record::Joint& joint,
                               int position, const record::Wrench& wrench) {
  record::Measured measured;
  measured.joint = joint.code;
  measured.position = position;
  measured.wrench = wrench.name;
  measured.unit = wrench.scale.unit;
  std::string typed;
  for (const auto& word : options.readings) typed += (typed.empty() ? "" : " ") + word;
  std::optional<quantity::Length> radius;
  if (!options.radius.empty()) {
    radius = quantity::read_length(options.radius);
    measured.radius_typed = read_label(options.radius, "--radius");
  }
  measured.readings = record::read_readings(typed, radius);
  measured.readings_typed = read_optional_label(typed, "the readings", 1000);
  if (!options.next || !measured.readings.empty()) record::check_readings(measured.readings);
  if (!options.restart.empty()) {
    measured.restart = record::read_word<record::Restart>(options.restart);
  }
  if (!options.neighbours.empty()) {
    measured.neighbours = record::read_word<record::Neighbours>(options.neighbours);
  }
  if (!options.prevailing.empty())
    measured.prevailing = read_positive_torque(options.prevailing, "--prevailing");
  if (const auto adapter = adapter_from(options.adapter)) {
    measured.adapter = adapter->words;
    measured.adapter_ratio = adapter->torque_ratio;
  }
  return measured;
}

// A scale has no mark above its end, so such a reading is a typing error and not a finding.
void check_on_scale(const record::Measured& measured, const record::Wrench& wrench) {
  const double last = measured.readings.empty() ? 0.0 : measured.readings.back().setting;
  if (last > wrench.scale.high) {
    throw quantity::InputError(fmt::format(
        "{} cannot be set to {}: its scale is {}; check the setting and the wrench", wrench.name,
        quantity::write_exact(quantity::StatedTorque{last, wrench.scale.unit}),
        record::write_exact(wrench.scale)));
  }
}

// Most often a slip of the pen or of the wrench; kept, and held against the grade.
void remark_on_marks(const record::Measured& measured, const record::Wrench& wrench,
                     const Session& session) {
  for (const auto& reading : measured.readings) {
    if (!finding::is_between_marks(measured, wrench, reading.setting)) continue;
    session.remark(fmt::format(
        "{} is between two marks of {}, which has one every {}; check the setting",
        quantity::write_exact(reading.setting), wrench.name,
        quantity::write_exact(quantity::StatedTorque{wrench.graduation, wrench.scale.unit})));
    return;
  }
}

// A finding is a fact and is kept; but a torque that the fastener cannot carry is often a slip.
void remark_on_plausibility(const finding::JointState& joint, const finding::Finding& found,
                            const Session& session) {
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

// Prints which setting to pull at next; writes nothing.
int propose_next(const FoundOptions& options, const record::Address& address,
                 const Session& session) {
  const auto logbook = session.open_to_read();
  const auto joint = joint_or_refuse(logbook, address.joint).content;
  check_positions(joint, address.positions);
  const auto wrench = wrench_or_refuse(logbook, options.wrench).content;
  const auto measured = measured_from(options, joint, address.positions.front(), wrench);
  check_on_scale(measured, wrench);
  const auto job = logbook.job_of(joint.code);
  const auto state = finding::survey(job);
  const auto& position = finding::joint_in(state, joint.code)->at(measured.position);
  if (position.removal != nullptr) {
    if (const auto why = finding::nothing_to_search(position.removal->content)) {
      throw Refusal(fmt::format("{}: {} (line {}); strike that line if it is wrong",
                                record::write_address(joint.code, measured.position), *why,
                                position.removal->stamp.line));
    }
  }
  remark_on_marks(measured, wrench, session);
  const auto* specified = position.specified;
  const auto condition =
      specified == nullptr ? fastener::Condition::AsReceived : specified->condition;
  const auto prevailing =
      measured.prevailing ? measured.prevailing->torque() : quantity::Torque::newton_metres(0.0);
  const auto proposal = finding::next_setting(
      {measured, wrench, finding::expected_torque(joint, condition, position.window, prevailing),
       finding::search_ceiling(joint, condition, position.window, prevailing)});
  session.out() << (session.json()
                        ? report::next_setting_json(proposal, measured.unit)
                        : report::next_setting_text(proposal, measured.unit, session.page()));
  return kDone;
}

}  // namespace

void declare_found(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<FoundOptions>();
  auto* command = app.add_subcommand(
      "found", "Record a found-torque test: settings in rising order and where the mark stood");
  command->add_option("ADDRESS", options->address, "Which fastener, such as J06/03")
      ->required()
      ->option_text("JOINT/POSITION");
  command
      ->add_option("READINGS", options->readings,
                   "Such as 60s 70s 75s 80o: s short, o on, p past, n no move; \"80s 6°\" with how "
                   "far the mark still is")
      ->option_text("READING ...");
  command->add_option("--wrench", options->wrench, "The wrench; settings are on its scale")
      ->required()
      ->option_text("NAME");
  command
      ->add_option("--radius", options->radius,
                   "Distance from the axis to the mark, for offsets in mm")
      ->option_text("LENGTH");
  command
      ->add_option("--restart", options->restart,
                   "stacked (the default: setting on setting) or backed-off before each pull")
      ->option_text("WORD");
  command
      ->add_option("--neighbours", options->neighbours,
                   "Whether the other fasteners were tight or slack")
      ->option_text("WORD");
  command
      ->add_option("--prevailing", options->prevailing,
                   "Torque to run the fastener before it seats")
      ->option_text("TORQUE");
  declare_adapter_options(*command, options->adapter);
  declare_correction(*command, options->correction);
  command
      ->add_flag("--next", options->next,
                 "Propose the next setting after these readings, or after none; nothing is written")
      ->excludes(command->get_option("--replace"));
  command->callback([options, &pending] {
    pending.run = [options](const Session& session) { return run_found(*options, session); };
  });
}

int run_found(const FoundOptions& options, const Session& session) {
  const auto address = record::read_address(options.address);
  if (address.positions.size() > 1) {
    throw quantity::InputError(
        fmt::format("{}: a finding is of one fastener; enter each position by itself",
                    quantity::quoted(options.address)));
  }
  if (options.next) return propose_next(options, address, session);
  auto logbook = session.open_to_write();
  logbook::Recording recording(logbook, session.writer());
  strike_replaced(logbook, recording, options.correction, {"finding"});
  const auto joint = joint_or_refuse(logbook, address.joint).content;
  check_positions(joint, address.positions);
  const auto wrench = wrench_or_refuse(logbook, options.wrench).content;
  const auto measured = measured_from(options, joint, address.positions.front(), wrench);
  check_on_scale(measured, wrench);
  finding::check_prevailing(
      measured, finding::found_torque(measured, wrench, quantity::Percent::of_hundred(0)));
  remark_on_marks(measured, wrench, session);
  const auto stamp = recording.append(measured);
  recording.commit();
  session.recorded({{stamp, report::line_text(measured)}});

  const auto job = logbook.job_of(joint.code);
  const auto state = finding::survey(job);
  const auto* joint_state = finding::joint_in(state, joint.code);
  const auto& position = joint_state->at(measured.position);
  remark_on_plausibility(*joint_state, *position.finding(), session);
  if (!session.json()) {
    session.out() << report::finding_text(*joint_state, *position.finding(), job.start,
                                          session.page());
  }
  return kDone;
}

}  // namespace cli
