#include "finding/drift.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <unordered_set>

#include "finding/joint_index.h"
#include "finding/specification_group.h"
#include "record/address.h"
#include "record/logbook_start.h"
#include "record/same_specification.h"

namespace finding {
namespace {

// What the positions are specified to, part by part where they differ: "80 N·m", or "1,3,4: 80 N·m,
// 2: 60 N·m".
template <class Word>
std::string of_each_group(const JointState& joint, std::string_view none, const Word& word) {
  const auto groups = specification_groups(joint);
  std::string text;
  for (const auto& group : groups) {
    if (!text.empty()) text += ", ";
    if (groups.size() > 1) text += record::write_positions(group.positions) + ": ";
    text += group.specified == nullptr ? std::string(none) : word(*group.specified);
  }
  return text;
}

std::string procedure_text(const JointState& joint) {
  return of_each_group(joint, "none", [](const record::Specified& specified) {
    return record::write_exact(specified.procedure);
  });
}

std::string condition_text(const JointState& joint) {
  return of_each_group(joint, "not given", [](const record::Specified& specified) {
    return std::string(fastener::name_of(specified.condition));
  });
}

// Both joints have one specification each, and one torque in two units is the same.
bool ask_the_same(const JointState& here, const JointState& there) {
  const auto groups_here = specification_groups(here);
  const auto groups_there = specification_groups(there);
  if (groups_here.size() != 1 || groups_there.size() != 1) return false;
  const auto* a = groups_here.front().specified;
  const auto* b = groups_there.front().specified;
  return a != nullptr && b != nullptr &&
         record::ask_the_same(a->procedure, b->procedure, record::LogbookStart{}.default_tolerance);
}

std::vector<std::string> differences(const JointState& here, const JointState& there) {
  std::vector<std::string> differs;
  const auto look = [&](std::string_view what, std::string_view a, std::string_view b) {
    if (a != b) differs.push_back(fmt::format("{} {} here, {} there", what, a, b));
  };
  look("size", here.joint->size, there.joint->size);
  const auto length = [](const record::Joint& joint) {
    return joint.length ? record::length_text(joint) : "not given";
  };
  // "3.5 in" and "88.9 mm" are the same length.
  if (here.joint->length != there.joint->length) {
    look("length", length(*here.joint), length(*there.joint));
  }
  look("grade", here.joint->grade, there.joint->grade);
  look("count", std::to_string(here.joint->count), std::to_string(there.joint->count));
  if (!ask_the_same(here, there)) {
    look("specification", procedure_text(here), procedure_text(there));
  }
  look("condition", condition_text(here), condition_text(there));
  return differs;
}

// The latest finding where it is one number and evidence.
const Finding* usable(const JointState& joint, std::size_t index) {
  if (index >= joint.positions.size()) return nullptr;
  const auto* finding = joint.positions[index].finding();
  return finding != nullptr && is_usable(*finding) ? finding : nullptr;
}

std::optional<double> median_of(const std::vector<DriftRow>& rows) {
  if (rows.empty()) return std::nullopt;
  std::vector<double> ratios;
  ratios.reserve(rows.size());
  for (const auto& row : rows) ratios.push_back(row.ratio);
  std::ranges::sort(ratios);
  const auto middle = ratios.size() / 2;
  return ratios.size() % 2 == 1 ? ratios[middle] : (ratios[middle - 1] + ratios[middle]) / 2.0;
}

DriftJoint drift_of(const JointState& here, const JointState& there) {
  DriftJoint joint{&here, &there, differences(here, there), {}, {}, {}};
  const auto count = std::max(here.positions.size(), there.positions.size());
  for (std::size_t i = 0; i < count; ++i) {
    const auto* found_here = usable(here, i);
    const auto* found_there = usable(there, i);
    const int position = static_cast<int>(i) + 1;
    if (found_here != nullptr && found_there != nullptr) {
      const double e_n = normalized_error(found_here->torque, found_there->torque);
      joint.rows.push_back({position, found_here, found_there,
                            *found_here->torque.best / *found_there->torque.best, false, e_n,
                            joint.alike() && std::fabs(e_n) > 1.0});
    } else if (found_here != nullptr || found_there != nullptr) {
      joint.in_one.push_back(position);
    }
  }
  joint.median = median_of(joint.rows);
  return joint;
}

void chart(Drift& drift) {
  std::vector<double> ratios;
  for (const auto& joint : drift.joints) {
    if (!joint.alike()) continue;
    for (const auto& row : joint.rows) ratios.push_back(row.ratio);
  }
  drift.charted = ratios.size();
  if (ratios.size() < kLeastForBand) return;
  drift.band = individuals_chart(ratios);
  for (auto& joint : drift.joints) {
    if (!joint.alike()) continue;
    for (auto& row : joint.rows) {
      row.outside = row.ratio < drift.band->low || row.ratio > drift.band->high;
    }
  }
}

}  // namespace

bool is_usable(const Finding& finding) {
  return finding.torque.best && finding.torque.best->in_newton_metres() > 0.0 &&
         finding.graded.grade != Grade::X;
}

double normalized_error(const FoundTorque& one, const FoundTorque& other) {
  const double expanded = std::hypot(one.budget.expanded().in_newton_metres(),
                                     other.budget.expanded().in_newton_metres());
  return (one.reference() - other.reference()).in_newton_metres() / expanded;
}

Drift drift(const Survey& here, const Survey& there) {
  const JointIndex others(there);
  Drift result;
  std::unordered_set<const JointState*> matched;
  for (const auto& joint : here.joints) {
    const auto* other = others.find(joint.joint->code);
    if (other == nullptr) {
      result.only_here.push_back(&joint);
    } else {
      matched.insert(other);
      result.joints.push_back(drift_of(joint, *other));
    }
  }
  for (const auto& joint : there.joints) {
    if (!matched.contains(&joint)) result.only_there.push_back(&joint);
  }
  chart(result);
  return result;
}

}  // namespace finding
