#include "act/wrench_entry.h"

#include <fmt/format.h>

#include "act/amendment.h"
#include "act/kept_words.h"
#include "act/option_error.h"
#include "failure/failure.h"
#include "record/address.h"
#include "record/typed_text.h"
#include "words/line_text.h"

namespace act {
namespace {

bool says_nothing(const WrenchWords& words) {
  return words.range.empty() && words.graduation.empty() && words.kind.empty() &&
         words.accuracy.empty() && words.serial.empty() && words.calibrated.empty() &&
         words.valid.empty() && words.found_off.empty();
}

[[noreturn]] void refuse_nothing_new(const std::string& name) {
  throw OptionError("name", fmt::format("nothing new to enter for {}; give what has changed, such "
                                        "as --calibrated DAY",
                                        name));
}

// A calibration cannot lie ahead of the day on which it is entered.
void check_calibrated_by(const record::Wrench& wrench, record::Day day) {
  if (!wrench.calibrated || *wrench.calibrated <= day) return;
  throw failure::InputError(fmt::format(
      "--calibrated {} lies after {}, the day of this entry; check the year, or give the day it "
      "was done with --at",
      record::write_day(*wrench.calibrated), record::write_day(day)));
}

// The words, with what they leave out as the wrench before had it. A graduation stays where the
// unit of the scale does.
void complete(WrenchWords& words, const record::Wrench& before, KeptWords& kept) {
  const bool is_other_unit =
      !words.range.empty() && record::read_scale(words.range).unit != before.scale.unit;
  KeptWords::fill(words.range, record::scale_text(before));
  if (!is_other_unit) KeptWords::fill(words.graduation, record::graduation_text(before));
  KeptWords::fill(words.kind, std::string(record::word_of(before.kind)));
  kept.take("accuracy", words.accuracy, record::accuracy_text(before));
  kept.take("serial", words.serial, before.serial);
  const auto& day = before.calibrated;
  kept.take("calibrated", words.calibrated, day ? record::write_day(*day) : "");
  kept.take("valid", words.valid, fmt::format("{}mo", before.valid_months));
  const auto& off = before.found_off;
  kept.take("found-off", words.found_off,
            off && !words.calibrated.empty() ? quantity::write_exact(*off) : "");
}

}  // namespace

record::Wrench wrench_from(const WrenchWords& words, const record::Wrench* earlier,
                           record::Day day) {
  auto wrench = earlier == nullptr ? record::Wrench{} : *earlier;
  if (earlier == nullptr) {
    wrench.name =
        of_option("name", [&] { return record::read_text(words.name, "the wrench's name", 40); });
  } else if (says_nothing(words)) {
    refuse_nothing_new(wrench.name);
  }
  if (!words.range.empty()) {
    wrench.scale = of_option("--range", [&] { return record::read_scale(words.range); });
    wrench.scale_typed = record::read_text(words.range, "--range");
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
    wrench.graduation_typed = record::read_text(words.graduation, "--graduation");
  }
  if (!words.kind.empty()) {
    wrench.kind =
        of_option("--kind", [&] { return record::read_word<record::WrenchKind>(words.kind); });
  }
  if (!words.accuracy.empty()) {
    wrench.accuracy = of_option("--accuracy", [&] {
      return record::read_percent_below_half(words.accuracy, "--accuracy");
    });
    wrench.accuracy_typed = record::read_text(words.accuracy, "--accuracy");
  }
  if (!words.serial.empty()) {
    wrench.serial =
        of_option("--serial", [&] { return record::read_text(words.serial, "--serial", 80); });
  }
  if (!words.calibrated.empty()) {
    const auto before = wrench.calibrated;
    wrench.calibrated =
        of_option("--calibrated", [&] { return record::read_day(words.calibrated); });
    // Told of each calibration anew; what this one found stands until it is said otherwise.
    if (wrench.calibrated != before) wrench.found_off.reset();
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

std::vector<std::string> remarks_on(const record::Wrench& wrench, record::Day day) {
  std::vector<std::string> remarks;
  if (record::is_out_of_calibration(wrench, day)) {
    remarks.push_back(fmt::format(
        "{} has been out of calibration since {}; no finding on it is better than C and "
        "the plan does not choose it until it is calibrated",
        wrench.name, record::write_day(*record::calibration_ends(wrench))));
  }
  if (const auto standard = record::deviation_by_standard(wrench);
      wrench.accuracy && *wrench.accuracy > standard) {
    remarks.push_back(fmt::format(
        "±{} is more than the ±{} that ISO 6789-1 permits such a wrench, and counts as stated: its "
        "findings are less sure than those of a wrench without a certificate, which is taken to "
        "keep the standard",
        quantity::write_exact(*wrench.accuracy), quantity::write_exact(standard)));
  }
  return remarks;
}

Done enter_wrench(logbook::Logbook& logbook, const logbook::Writer& stated,
                  const WrenchWords& said) {
  Amendment amendment(logbook, stated, said.correction);
  const auto day = record::local_day(amendment.writer().done_at);
  amendment.strike_replaced({"wrench"});
  auto words = said;
  KeptWords kept(said.correction);
  const auto* before = amendment.before<record::Wrench>();
  if (before != nullptr) {
    const bool is_renamed = !record::same_code(said.name, before->name);
    const bool leaves_out = !said.correction.without.empty();
    if (says_nothing(said) && !is_renamed && !leaves_out) refuse_nothing_new(before->name);
    of_option("--range", [&] { complete(words, *before, kept); });
  }
  if (before != nullptr) kept.check();
  const auto known = before == nullptr ? logbook.wrench(words.name) : std::nullopt;
  const auto wrench = wrench_from(words, known ? &known->content : nullptr, day);
  auto stamp = amendment.append(wrench);
  amendment.commit();
  Done done{{{std::move(stamp), words::line_text(wrench)}}, remarks_on(wrench, day)};
  amendment.tell_replaced(done);
  return done;
}

}  // namespace act
