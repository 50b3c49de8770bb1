#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>

#include "audit/flag.h"
#include "audit/joint_pattern.h"
#include "audit/rules.h"
#include "finding/not_to_be_tested.h"
#include "finding/unit_slip.h"

namespace audit {
namespace {

using finding::OutlierTest;
using finding::Verdict;

Statement test_of(const finding::Outlier& outlier) {
  return outlier.test == OutlierTest::ModifiedZScore
             ? says("modified z-score {}, limit {}",
                    as::figure(outlier.score, fmt::format("{:.1f}", outlier.score)),
                    as::wording(fmt::format("{}", finding::kScoreLimit)))
             : says("{} % off, limit {} %",
                    as::figure(outlier.score, fmt::format("{:+.0f}", outlier.score * 100.0)),
                    as::wording(fmt::format("{:.0f}", finding::kShareLimit * 100.0)));
}

Statement median_of(const JointCase& at, const Siblings& siblings) {
  return siblings.are_shares
             ? says("{} of what each is specified to",
                    as::figure(siblings.median, fmt::format("{:.2f}", siblings.median)))
             : as::torque(quantity::Torque::newton_metres(siblings.median), at.unit());
}

// What of the finding is held against its siblings, where that is not the torque itself.
Statement compared(const JointCase& at, const Siblings& siblings, const finding::Finding& finding,
                   double value) {
  if (siblings.are_shares) {
    return says(", {} of its specification,", as::figure(value, fmt::format("{:.2f}", value)));
  }
  if (!finding.entry->content.prevailing) return {};
  return as::wording(
      fmt::format(", {} without its running torque,",
                  quantity::write_rounded(quantity::Torque::newton_metres(value), at.unit())));
}

// Most of the siblings are low or high: what is apart from them is the one that is right.
bool are_mostly_off(const Siblings& siblings) {
  const auto off = std::ranges::count_if(siblings.found, [](const auto* position) {
    const auto verdict = position->finding()->verdict;
    return verdict == Verdict::Low || verdict == Verdict::High;
  });
  return 2 * off > std::ssize(siblings.found);
}

void outlier(const JointCase& at, Deviations& deviations) {
  for (const auto& siblings : at.pattern.siblings) {
    if (are_mostly_off(siblings)) continue;
    for (const auto& apart : siblings.apart) {
      const auto& position = *siblings.found[apart.index];
      const auto& finding = *position.finding();
      // Where it is low or high the hold is there already, and its explanation names the siblings.
      if (finding.verdict == Verdict::Low || finding.verdict == Verdict::High) continue;
      const double value = siblings.values[apart.index];
      deviations.push_back(flag_position(
          kOutlier, Level::Check, at.joint, position.position,
          says("found {}{} where the median of the {} findings {} is {} ({})",
               as::found(finding.torque, at.unit()), compared(at, siblings, finding, value),
               as::count(siblings.found.size()),
               as::wording(at.pattern.siblings.size() == 1 ? "of this joint"
                           : siblings.are_shares           ? "with a specified torque"
                                                           : "under its specification"),
               median_of(at, siblings), test_of(apart)),
          finding::not_to_be_tested(at.joint, position.position).empty()
              ? "look at this fastener, its thread and its seat before the others; test it again "
                "where it still can be"
              : "look at this fastener, its thread and its seat before the others"));
    }
  }
}

void whole_joint_off(const JointCase& at, Deviations& deviations) {
  const auto& pattern = at.pattern;
  if (!is_off_by_one_ratio(pattern)) return;
  const double ratio = *pattern.median_ratio;
  const auto slip = finding::unit_slip(ratio);
  deviations.push_back(flag_joint(
      kWholeJointOff, Level::Check, at.joint,
      says("all {} findings are about {} times the specification{}",
           as::count(pattern.found.size()), as::figure(ratio, fmt::format("{:.2f}", ratio)),
           slip ? says("; a number meant in {} but taken in {} gives {} times",
                       as::name(slip->meant), as::name(slip->taken),
                       as::wording(fmt::format("{:.3g}", slip->factor)))
                : Statement{}),
      ratio < 1.0
          ? fmt::format("look for one cause: {}settled faces, another specification or its unit, "
                        "the wrench",
                        speaks_of_gasket(*at.joint.joint) ? "a relaxed gasket, " : "")
          : "look for one cause: another specification or its unit, paint or rust, the wrench"));
}

}  // namespace

constinit const Rule kOutlier{"outlier",
                              "found torque that stands apart from its siblings in the joint",
                              outlier, kRestsOn<record::Measured>};
constinit const Rule kWholeJointOff{"whole joint off",
                                    "joints whose findings are all low or all high by one ratio",
                                    whole_joint_off, kRestsOn<record::Measured>};

}  // namespace audit
