#include "cli/wrench.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "cli/option_error.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "record/typed_text.h"
#include "terminal/session.h"
#include "words/line_text.h"

namespace cli {
namespace {

bool says_nothing(const WrenchOptions& options) {
  return options.range.empty() && options.graduation.empty() && options.kind.empty() &&
         options.accuracy.empty() && options.serial.empty() && options.calibrated.empty() &&
         options.valid.empty() && options.found_off.empty();
}

// A calibration cannot lie ahead of the day on which it is entered.
void check_calibrated_by(const record::Wrench& wrench, record::Day day) {
  if (!wrench.calibrated || *wrench.calibrated <= day) return;
  throw failure::InputError(fmt::format(
      "--calibrated {} lies after {}, the day of this entry; check the year, or give the day it "
      "was done with --at",
      record::write_day(*wrench.calibrated), record::write_day(day)));
}

}  // namespace

record::Wrench wrench_from(const WrenchOptions& options, const record::Wrench* earlier,
                           record::Day day) {
  auto wrench = earlier == nullptr ? record::Wrench{} : *earlier;
  if (earlier == nullptr) {
    wrench.name = of_option(
        "name", [&] { return record::read_label(options.name, "the wrench's name", 40); });
  } else if (says_nothing(options)) {
    throw OptionError("name", fmt::format("nothing new to enter for {}; give what has changed, "
                                          "such as --calibrated DAY",
                                          wrench.name));
  }
  if (!options.range.empty()) {
    wrench.scale = of_option("--range", [&] { return record::read_scale(options.range); });
    wrench.scale_typed = record::read_label(options.range, "--range");
    if (options.graduation.empty()) {
      throw OptionError("--graduation",
                        "--range needs --graduation, the step between two marks of that scale");
    }
  } else if (earlier == nullptr) {
    throw OptionError("--range", fmt::format("{} is new; give its scale with --range \"20..200 "
                                             "N·m\" --graduation \"1 N·m\"",
                                             wrench.name));
  }
  if (!options.graduation.empty()) {
    wrench.graduation = of_option(
        "--graduation", [&] { return record::read_graduation(options.graduation, wrench.scale); });
    wrench.graduation_typed = record::read_label(options.graduation, "--graduation");
  }
  if (!options.kind.empty()) {
    wrench.kind =
        of_option("--kind", [&] { return record::read_word<record::WrenchKind>(options.kind); });
  }
  if (!options.accuracy.empty()) {
    wrench.accuracy = of_option("--accuracy", [&] {
      return record::read_percent_below_half(options.accuracy, "--accuracy");
    });
    wrench.accuracy_typed = record::read_label(options.accuracy, "--accuracy");
  }
  if (!options.serial.empty()) {
    wrench.serial =
        of_option("--serial", [&] { return record::read_label(options.serial, "--serial", 80); });
  }
  if (!options.calibrated.empty()) {
    wrench.calibrated =
        of_option("--calibrated", [&] { return record::read_day(options.calibrated); });
    wrench.found_off.reset();  // told of each calibration anew
  }
  if (!options.found_off.empty()) {
    if (options.calibrated.empty()) {
      throw OptionError("--found-off",
                        "--found-off is what a calibration found; name its day with --calibrated");
    }
    wrench.found_off =
        of_option("--found-off", [&] { return quantity::read_percent(options.found_off); });
  }
  if (!options.valid.empty()) {
    wrench.valid_months = of_option("--valid", [&] { return record::read_months(options.valid); });
  }
  of_option("--calibrated", [&] { check_calibrated_by(wrench, day); });
  return wrench;
}

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
    pending.run = [options](const terminal::Session& session) {
      return run_wrench(*options, session);
    };
  });
}

int run_wrench(const WrenchOptions& options, const terminal::Session& session) {
  auto logbook = session.open_to_write();
  logbook::Recording recording(logbook, session.writer());
  const auto known = logbook.wrench(options.name);
  const auto wrench = wrench_from(options, known ? &known->content : nullptr, session.day());
  strike_replaced(logbook, recording, options.correction, {"wrench"});
  const auto stamp = recording.append(wrench);
  recording.commit();
  session.recorded({{stamp, words::line_text(wrench)}});
  return failure::kDone;
}

}  // namespace cli
