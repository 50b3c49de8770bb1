#include <fmt/format.h>

#include <cmath>

#include "audit/flag.h"
#include "audit/joint_pattern.h"
#include "audit/rules.h"
#include "finding/unit_slip.h"

namespace audit {
namespace {

using finding::OutlierTest;
using finding::Verdict;

std::string test_text(const finding::Outlier& outlier) {
  return outlier.test == OutlierTest::ModifiedZScore
             ? fmt::format("modified z-score {:.1f}, limit {}", outlier.score, finding::kScoreLimit)
             : fmt::format("{:+.0f} % off, limit {:.0f} %", outlier.score * 100.0,
                           finding::kShareLimit * 100.0);
}

std::string median_text(const Case& subject, const Siblings& siblings) {
  return siblings.are_shares
             ? fmt::format("{:.2f} of what each is specified to", siblings.median)
             : torque_text(subject, quantity::Torque::newton_metres(siblings.median));
}

void outlier(const Case& subject, std::vector<Deviation>& deviations) {
  for (std::size_t i = 0; i < subject.patterns.size(); ++i) {
    for (const auto& siblings : subject.patterns[i].siblings) {
      for (const auto& apart : siblings.apart) {
        const auto& position = *siblings.found[apart.index];
        const auto& finding = *position.finding();
        // Where it is low or high the hold is there already, and its explanation names the
        // siblings.
        if (finding.verdict == Verdict::Low || finding.verdict == Verdict::High) continue;
        const std::string share =
            siblings.are_shares
                ? fmt::format(", {:.2f} of its specification,", siblings.values[apart.index])
                : "";
        deviations.push_back(flag_position(
            kOutlier, Level::Check, subject.survey.joints[i], position.position,
            fmt::format("found {}{} where the median of the {} findings {} is {} ({})",
                        found_text(subject, finding.torque), share, siblings.found.size(),
                        subject.patterns[i].siblings.size() == 1 ? "of this joint"
                        : siblings.are_shares                    ? "with a specified torque"
                                                                 : "under its specification",
                        median_text(subject, siblings), test_text(apart)),
            "look at this fastener, its thread and its seat before the others; test it again where "
            "it still can be"));
      }
    }
  }
}

void whole_joint_off(const Case& subject, std::vector<Deviation>& deviations) {
  for (std::size_t i = 0; i < subject.patterns.size(); ++i) {
    const auto& pattern = subject.patterns[i];
    const auto& joint = subject.survey.joints[i];
    if (!is_off_by_one_ratio(pattern)) continue;
    const bool is_low = *pattern.median_ratio < 1.0;
    const auto slip = finding::unit_slip(*pattern.median_ratio);
    deviations.push_back(flag_joint(
        kWholeJointOff, Level::Check, joint,
        fmt::format("all {} findings are about {:.2f} times the specification{}",
                    pattern.found.size(), *pattern.median_ratio,
                    slip ? fmt::format("; a number meant in {} but taken in {} gives {:.3g} times",
                                       slip->meant, slip->taken, slip->factor)
                         : ""),
        is_low
            ? "look for one cause: a relaxed gasket, settled faces, another specification or its "
              "unit, the wrench"
            : "look for one cause: another specification or its unit, paint or rust, the wrench"));
  }
}

}  // namespace

constinit const Rule kOutlier{"outlier",
                              "found torque that stands apart from its siblings in the joint",
                              outlier, RestsOn{.findings = true}};
constinit const Rule kWholeJointOff{"whole joint off",
                                    "joints whose findings are all low or all high by one ratio",
                                    whole_joint_off, RestsOn{.findings = true}};

}  // namespace audit
