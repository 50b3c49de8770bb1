#include "words/wrenches_for_test.h"

#include <fmt/format.h>

#include "finding/position_search.h"

namespace words {
namespace {

// What is to be known of a wrench before it is taken on this day; empty where it is in calibration.
std::string calibration_note(const record::Wrench& wrench, record::Day day) {
  switch (record::calibration_on(wrench, day)) {
    case record::Calibration::Expired:
      return "out of calibration since " + record::write_day(*record::calibration_ends(wrench));
    case record::Calibration::NotYet:
      return "not calibrated before " + record::write_day(*wrench.calibrated);
    case record::Calibration::Unknown:
      return "no calibration on record";
    case record::Calibration::Valid:
      break;
  }
  return {};
}

}  // namespace

WrenchesForTest wrenches_to_choose_from(const record::Job& job, const finding::JointState& joint,
                                        int position, record::Day day) {
  const auto range = finding::searched_range(joint, position);
  WrenchesForTest wrenches;
  if (range) {
    wrenches.range = fmt::format("{} to {}", quantity::write_rounded(range->low, joint.unit),
                                 quantity::write_rounded(range->high, joint.unit));
  }
  for (const auto name : record::wrench_names(job)) {
    const auto& wrench = *record::wrench_on(job, name, day);
    const auto calibration = calibration_note(wrench, day);
    const auto with = [&](const std::string& note) {
      return note.empty() ? std::string(name) : fmt::format("{} ({})", name, note);
    };
    if (range && !finding::covers(wrench, *range)) {
      wrenches.others.push_back(
          with(record::scale_text(wrench) + (calibration.empty() ? "" : ", " + calibration)));
    } else if (record::is_out_of_calibration(wrench, day)) {
      wrenches.run_out.push_back(with(calibration));
    } else {
      wrenches.covering.push_back(with(calibration));
      wrenches.fit.emplace_back(name);
    }
  }
  return wrenches;
}

}  // namespace words
