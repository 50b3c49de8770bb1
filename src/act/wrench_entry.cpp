#include "act/wrench_entry.h"

#include <fmt/format.h>

#include "act/option_error.h"
#include "failure/failure.h"
#include "record/typed_text.h"
#include "words/line_text.h"

namespace act {
namespace {

bool says_nothing(const WrenchWords& words) {
  return words.range.empty() && words.graduation.empty() && words.kind.empty() &&
         words.accuracy.empty() && words.serial.empty() && words.calibrated.empty() &&
         words.valid.empty() && words.found_off.empty();
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

record::Wrench wrench_from(const WrenchWords& words, const record::Wrench* earlier,
                           record::Day day) {
  auto wrench = earlier == nullptr ? record::Wrench{} : *earlier;
  if (earlier == nullptr) {
    wrench.name =
        of_option("name", [&] { return record::read_label(words.name, "the wrench's name", 40); });
  } else if (says_nothing(words)) {
    throw OptionError("name", fmt::format("nothing new to enter for {}; give what has changed, "
                                          "such as --calibrated DAY",
                                          wrench.name));
  }
  if (!words.range.empty()) {
    wrench.scale = of_option("--range", [&] { return record::read_scale(words.range); });
    wrench.scale_typed = record::read_label(words.range, "--range");
    if (words.graduation.empty()) {
      throw OptionError("--graduation",
                        "--range needs --graduation, the step between two marks of that scale");
    }
  } else if (earlier == nullptr) {
    throw OptionError("--range", fmt::format("{} is new; give its scale with --range \"20..200 "
                                             "N·m\" --graduation \"1 N·m\"",
                                             wrench.name));
  }
  if (!words.graduation.empty()) {
    wrench.graduation = of_option(
        "--graduation", [&] { return record::read_graduation(words.graduation, wrench.scale); });
    wrench.graduation_typed = record::read_label(words.graduation, "--graduation");
  }
  if (!words.kind.empty()) {
    wrench.kind =
        of_option("--kind", [&] { return record::read_word<record::WrenchKind>(words.kind); });
  }
  if (!words.accuracy.empty()) {
    wrench.accuracy = of_option("--accuracy", [&] {
      return record::read_percent_below_half(words.accuracy, "--accuracy");
    });
    wrench.accuracy_typed = record::read_label(words.accuracy, "--accuracy");
  }
  if (!words.serial.empty()) {
    wrench.serial =
        of_option("--serial", [&] { return record::read_label(words.serial, "--serial", 80); });
  }
  if (!words.calibrated.empty()) {
    wrench.calibrated =
        of_option("--calibrated", [&] { return record::read_day(words.calibrated); });
    wrench.found_off.reset();  // told of each calibration anew
  }
  if (!words.found_off.empty()) {
    if (words.calibrated.empty()) {
      throw OptionError("--found-off",
                        "--found-off is what a calibration found; name its day with --calibrated");
    }
    wrench.found_off =
        of_option("--found-off", [&] { return quantity::read_percent(words.found_off); });
  }
  if (!words.valid.empty()) {
    wrench.valid_months = of_option("--valid", [&] { return record::read_months(words.valid); });
  }
  of_option("--calibrated", [&] { check_calibrated_by(wrench, day); });
  return wrench;
}

Done enter_wrench(logbook::Logbook& logbook, const logbook::Writer& writer,
                  const WrenchWords& words) {
  const auto day = record::local_day(writer.done_at);
  logbook::Recording recording(logbook, writer);
  const auto known = logbook.wrench(words.name);
  const auto wrench = wrench_from(words, known ? &known->content : nullptr, day);
  strike_replaced(logbook, recording, words.correction, {"wrench"});
  auto stamp = recording.append(wrench);
  recording.commit();
  Done done{{{std::move(stamp), words::line_text(wrench)}}, {}};
  if (record::is_out_of_calibration(wrench, day)) {
    done.remarks.push_back(fmt::format(
        "{} has been out of calibration since {}; no finding on it is better than C and "
        "the plan does not choose it until it is calibrated",
        wrench.name, record::write_day(*record::calibration_ends(wrench))));
  }
  if (const auto standard = record::deviation_by_standard(wrench);
      wrench.accuracy && *wrench.accuracy > standard) {
    done.remarks.push_back(fmt::format(
        "±{} is more than the ±{} that ISO 6789-1 permits such a wrench, and counts as stated: its "
        "findings are less sure than those of a wrench without a certificate, which is taken to "
        "keep the standard",
        quantity::write_exact(*wrench.accuracy), quantity::write_exact(standard)));
  }
  return done;
}

}  // namespace act
