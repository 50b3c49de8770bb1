#include "cli/wrench.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "cli/errors.h"
#include "cli/exit_code.h"
#include "cli/label.h"
#include "cli/pending.h"
#include "cli/session.h"
#include "report/line_text.h"

namespace cli {
namespace {

// The wrench as given; what is not given stays as `known`, the wrench's earlier entry, has it.
record::Wrench wrench_from(const WrenchOptions& options, record::Wrench known, bool is_known) {
  if (!is_known) known.name = read_label(options.name, "the wrench's name", 40);
  if (!options.range.empty()) {
    known.scale = record::read_scale(options.range);
    known.scale_typed = read_label(options.range, "--range");
    if (options.graduation.empty()) {
      throw UsageError("--range needs --graduation, the step between two marks of that scale");
    }
  } else if (!is_known) {
    throw UsageError(
        fmt::format("{} is new; give its scale with --range \"20..200 N·m\" --graduation \"1 N·m\"",
                    known.name));
  }
  if (!options.graduation.empty()) {
    known.graduation = record::read_graduation(options.graduation, known.scale);
    known.graduation_typed = read_label(options.graduation, "--graduation");
  }
  if (!options.kind.empty()) known.kind = record::read_word<record::WrenchKind>(options.kind);
  if (!options.accuracy.empty()) {
    known.accuracy = read_percent_below_half(options.accuracy, "--accuracy");
    known.accuracy_typed = read_label(options.accuracy, "--accuracy");
  }
  if (!options.serial.empty()) known.serial = read_label(options.serial, "--serial", 80);
  if (!options.calibrated.empty()) {
    known.calibrated = record::read_day(options.calibrated);
    known.found_off.reset();  // told of each calibration anew
  }
  if (!options.found_off.empty()) {
    if (options.calibrated.empty()) {
      throw UsageError("--found-off is what a calibration found; name its day with --calibrated");
    }
    known.found_off = quantity::read_percent(options.found_off);
  }
  if (!options.valid.empty()) known.valid_months = record::read_months(options.valid);
  return known;
}

bool says_nothing(const WrenchOptions& options) {
  return options.range.empty() && options.graduation.empty() && options.kind.empty() &&
         options.accuracy.empty() && options.serial.empty() && options.calibrated.empty() &&
         options.valid.empty();
}

// A calibration cannot lie ahead of the day on which it is entered.
void check_calibrated_by(const record::Wrench& wrench, record::Day day) {
  if (!wrench.calibrated || *wrench.calibrated <= day) return;
  throw quantity::InputError(fmt::format(
      "--calibrated {} lies after {}, the day of this entry; check the year, or give the day it "
      "was done with --at",
      record::write_day(*wrench.calibrated), record::write_day(day)));
}

}  // namespace

void declare_wrench(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<WrenchOptions>();
  auto* command = app.add_subcommand("wrench", "Enter a torque wrench, or its new calibration");
  command->add_option("NAME", options->name, "Its short name, such as TW2")
      ->required()
      ->option_text("NAME");
  command->add_option("--range", options->range, "Both ends of its scale, such as \"20..200 N·m\"")
      ->option_text("SCALE");
  command->add_option("--graduation", options->graduation, "Step between two marks of the scale")
      ->option_text("TORQUE");
  command->add_option("--kind", options->kind, "setting (the default), indicating or electronic")
      ->option_text("KIND");
  command
      ->add_option("--accuracy", options->accuracy,
                   "Permissible deviation from its certificate; else ISO 6789-1 is taken")
      ->option_text("PERCENT");
  command->add_option("--serial", options->serial, "Serial number")->option_text("TEXT");
  command->add_option("--calibrated", options->calibrated, "Day of the last calibration")
      ->option_text("DAY");
  command->add_option("--valid", options->valid, "How long a calibration holds (12mo)")
      ->option_text("MONTHS");
  command
      ->add_option("--found-off", options->found_off,
                   "Largest deviation that this calibration found before adjusting, such as 6%")
      ->option_text("PERCENT");
  declare_correction(*command, options->correction);
  command->callback([options, &pending] {
    pending.run = [options](const Session& session) { return run_wrench(*options, session); };
  });
}

int run_wrench(const WrenchOptions& options, const Session& session) {
  auto logbook = session.open_to_write();
  logbook::Recording recording(logbook, session.writer());
  const auto known = logbook.wrench(options.name);
  if (known && says_nothing(options)) {
    throw UsageError(
        fmt::format("nothing new to enter for {}; give what has changed, such as --calibrated DAY",
                    known->content.name));
  }
  const auto wrench =
      wrench_from(options, known ? known->content : record::Wrench{}, known.has_value());
  check_calibrated_by(wrench, session.day());
  strike_replaced(logbook, recording, options.correction, {"wrench"});
  const auto stamp = recording.append(wrench);
  recording.commit();
  session.recorded({{stamp, report::line_text(wrench)}});
  return kDone;
}

}  // namespace cli
