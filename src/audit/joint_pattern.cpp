#include "audit/joint_pattern.h"

#include <algorithm>
#include <cmath>

#include "finding/specification_group.h"
#include "quantity/ascii.h"

namespace audit {
namespace {

using finding::Finding;
using finding::PositionState;
using finding::Verdict;

bool is_evidence(const Finding& finding) {
  return finding.torque.best && finding.graded.grade != finding::Grade::X;
}

// Without what a locking feature took.
double clamping_torque_nm(const Finding& finding) {
  const auto& prevailing = finding.entry->content.prevailing;
  return finding.torque.best->in_newton_metres() -
         (prevailing ? prevailing->torque().in_newton_metres() : 0.0);
}

// The positions that are held against each other, not yet measured.
std::vector<Siblings> parted(const finding::JointState& joint,
                             const std::vector<const PositionState*>& found) {
  std::vector<Siblings> parts;
  const auto groups = finding::specification_groups(joint);
  if (groups.size() == 1) {
    if (!found.empty()) parts.push_back({found, {}, false, 0.0, {}});
    return parts;
  }
  Siblings by_share;
  by_share.are_shares = true;
  for (const auto* position : found) {
    if (position->finding()->ratio) by_share.found.push_back(position);
  }
  if (!by_share.found.empty()) parts.push_back(std::move(by_share));
  for (const auto& group : groups) {
    Siblings alike;
    for (const auto* position : found) {
      if (!position->finding()->ratio &&
          std::ranges::binary_search(group.positions, position->position)) {
        alike.found.push_back(position);
      }
    }
    if (!alike.found.empty()) parts.push_back(std::move(alike));
  }
  return parts;
}

void measure(Siblings& siblings) {
  for (const auto* position : siblings.found) {
    const auto& finding = *position->finding();
    siblings.values.push_back(siblings.are_shares ? *finding.ratio : clamping_torque_nm(finding));
  }
  siblings.median = finding::median(siblings.values);
  for (const auto& outlier : finding::outliers(siblings.values)) {
    // Findings come in the steps of a wrench, so that the spread among many equal ones says little:
    // what the uncertainty explains is not apart.
    const auto& finding = *siblings.found[outlier.index]->finding();
    const double value = siblings.values[outlier.index];
    double uncertainty = finding.torque.budget.expanded().in_newton_metres();
    if (siblings.are_shares) uncertainty *= value / clamping_torque_nm(finding);
    if (std::fabs(value - siblings.median) > uncertainty) siblings.apart.push_back(outlier);
  }
}

// They are in the order of their positions.
std::optional<std::size_t> place_among(const Siblings& siblings, const PositionState& position) {
  const auto& found = siblings.found;
  const auto at = std::ranges::lower_bound(found, position.position, {}, &PositionState::position);
  if (at == found.end() || *at != &position) return std::nullopt;
  return static_cast<std::size_t>(at - found.begin());
}

}  // namespace

bool speaks_of_gasket(const record::Joint& joint) {
  std::string_view rest = joint.holds;
  while (!rest.empty() && !quantity::starts_with_in_any_case(rest, "gasket")) rest.remove_prefix(1);
  return !rest.empty();
}

JointPattern pattern_of(const finding::JointState& joint) {
  JointPattern pattern;
  std::vector<double> ratios;
  for (const auto& position : joint.positions) {
    const auto* finding = position.finding();
    if (finding == nullptr || !is_evidence(*finding)) continue;
    pattern.found.push_back(&position);
    if (finding->ratio) ratios.push_back(*finding->ratio);
    if (finding->verdict == Verdict::Within) ++pattern.within;
  }
  if (!ratios.empty()) pattern.median_ratio = finding::median(ratios);
  if (!pattern.found.empty()) pattern.siblings = parted(joint, pattern.found);
  for (auto& siblings : pattern.siblings) measure(siblings);
  return pattern;
}

const Siblings* siblings_of(const JointPattern& pattern, const PositionState& position) {
  const auto found = std::ranges::find_if(pattern.siblings, [&](const Siblings& siblings) {
    return place_among(siblings, position).has_value();
  });
  return found == pattern.siblings.end() ? nullptr : &*found;
}

double share_of_median(const Siblings& siblings, const PositionState& position) {
  return siblings.values.at(*place_among(siblings, position)) / siblings.median;
}

bool is_off_by_one_ratio(const JointPattern& pattern) {
  if (pattern.found.size() < 3 || !pattern.median_ratio) return false;
  const auto verdict = pattern.found.front()->finding()->verdict;
  if (verdict != Verdict::Low && verdict != Verdict::High) return false;
  return std::ranges::all_of(pattern.found, [&](const auto* position) {
    const auto& finding = *position->finding();
    return finding.verdict == verdict && finding.ratio &&
           std::fabs(*finding.ratio / *pattern.median_ratio - 1.0) <= kAlike;
  });
}

}  // namespace audit
