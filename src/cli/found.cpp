#include "cli/found.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "cli/finding_entry.h"
#include "cli/lookup.h"
#include "cli/option_error.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "finding/position_search.h"
#include "quantity/length_text.h"
#include "record/address.h"
#include "record/typed_text.h"
#include "screen/next_setting_answer.h"
#include "terminal/session.h"

namespace cli {
namespace {

record::Measured measured_from(const FoundOptions& options, const record::Joint& joint,
                               int position, const record::Wrench& wrench) {
  auto measured = test_without_readings(joint, position, wrench);
  std::string typed;
  for (const auto& word : options.readings) typed += (typed.empty() ? "" : " ") + word;
  std::optional<quantity::Length> radius;
  if (!options.radius.empty()) {
    radius = of_option("--radius", [&] { return quantity::read_length(options.radius); });
    measured.radius_typed = record::read_label(options.radius, "--radius");
  }
  of_option("readings", [&] {
    measured.readings = record::read_readings(typed, radius);
    measured.readings_typed = record::read_optional_label(typed, "the readings", 1000);
    if (!options.next || !measured.readings.empty()) record::check_readings(measured.readings);
  });
  if (!options.restart.empty()) {
    measured.restart =
        of_option("--restart", [&] { return record::read_word<record::Restart>(options.restart); });
  }
  if (!options.neighbours.empty()) {
    measured.neighbours = of_option(
        "--neighbours", [&] { return record::read_word<record::Neighbours>(options.neighbours); });
  }
  if (!options.prevailing.empty()) {
    measured.prevailing = of_option("--prevailing", [&] {
      return record::read_positive_torque(options.prevailing, "--prevailing");
    });
  }
  if (const auto adapter =
          of_option("--extension", [&] { return adapter_from(options.adapter); })) {
    measured.adapter = *adapter;
  }
  return measured;
}

}  // namespace

record::Measured finding_from(const FoundOptions& options, const record::Joint& joint, int position,
                              const record::Wrench& wrench) {
  auto measured = measured_from(options, joint, position, wrench);
  check_finding(measured, wrench);
  return measured;
}

namespace {

// Prints which setting to pull at next; writes nothing.
int propose_next(const FoundOptions& options, const record::Address& address,
                 const terminal::Session& session) {
  const auto logbook = session.open_to_read();
  const auto joint = joint_or_refuse(logbook, address.joint).content;
  check_positions(joint, address.positions);
  const auto wrench = wrench_or_refuse(logbook, options.wrench).content;
  const auto measured = measured_from(options, joint, address.positions.front(), wrench);
  check_on_scale(measured, wrench);
  const auto job = logbook.job_of(joint.code);
  const auto state = finding::survey(job);
  const auto& joint_state = *finding::joint_in(state, joint.code);
  const auto& position = joint_state.at(measured.position);
  if (position.removal != nullptr) {
    if (const auto why = finding::nothing_to_search(position.removal->content)) {
      throw failure::Refusal(fmt::format("{}: {} (line {}); strike that line if it is wrong",
                                         record::write_address(joint.code, measured.position), *why,
                                         position.removal->stamp.line));
    }
  }
  remark_on_marks(measured, wrench, session);
  const auto proposal = finding::next_setting_at(joint_state, measured, wrench);
  session.out() << (session.json()
                        ? screen::next_setting_json(proposal, measured.unit)
                        : screen::next_setting_text(proposal, measured.unit, session.page()));
  return failure::kDone;
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
    pending.run = [options](const terminal::Session& session) {
      return run_found(*options, session);
    };
  });
}

int run_found(const FoundOptions& options, const terminal::Session& session) {
  const auto address = record::read_address(options.address);
  if (address.positions.size() > 1) {
    throw failure::InputError(
        fmt::format("{}: a finding is of one fastener; enter each position by itself",
                    quantity::quoted(options.address)));
  }
  if (options.next) return propose_next(options, address, session);
  record_finding(session, {address, options.wrench, options.correction},
                 [&](const auto&, const auto& joint, const auto& wrench) {
                   return measured_from(options, joint, address.positions.front(), wrench);
                 });
  return failure::kDone;
}

}  // namespace cli
