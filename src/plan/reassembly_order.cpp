#include "plan/reassembly_order.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "finding/joint_index.h"
#include "plan/joint_order.h"

namespace plan {
namespace {

using finding::JointState;

// The joints in the order in which they were last opened, as ranks; the last position to come out
// tells when a joint was open.
std::map<std::string, int> removal_ranks(const std::vector<JointState>& joints) {
  // Equal times, as where only the day was given, fall back to the order in which it was entered.
  using When = std::pair<record::Moment, std::string>;
  std::vector<std::pair<When, const JointState*>> opened;
  for (const auto& joint : joints) {
    std::optional<When> last;
    for (const auto& position : joint.positions) {
      if (position.removal == nullptr) continue;
      const auto& stamp = position.removal->stamp;
      const When when{stamp.done_at, stamp.id};
      last = last ? std::max(*last, when) : when;
    }
    if (last) opened.emplace_back(*last, &joint);
  }
  std::ranges::stable_sort(opened, {}, [](const auto& pair) { return pair.first; });
  std::map<std::string, int> ranks;
  int rank = 0;
  for (const auto& [when, joint] : opened) ranks[joint->joint->code] = ++rank;
  return ranks;
}

JointOrder order_of(const std::vector<JointState>& joints) {
  const auto ranks = removal_ranks(joints);
  std::vector<JointToClose> to_close;
  std::vector<Precedence> precedences;
  for (const auto& state : joints) {
    const auto& joint = *state.joint;
    const auto rank = ranks.find(joint.code);
    to_close.push_back({joint.code,
                        rank == ranks.end() ? std::nullopt : std::optional<int>(rank->second),
                        joint.bench});
    for (const auto& first : joint.after) {
      precedences.push_back({joint.code, Precedence::Kind::After, first});
    }
    for (const auto& first : joint.covers) {
      precedences.push_back({joint.code, Precedence::Kind::Covers, first});
    }
  }
  auto order = joint_order(to_close, precedences);
  if (const auto* cycle = std::get_if<JointCycle>(&order)) {
    throw PlanCycle(fmt::format(
        "no order can be found, the joints wait for each other in a circle: {}; strike the wrong "
        "one and enter it again",
        in_words(*cycle)));
  }
  return std::get<JointOrder>(std::move(order));
}

std::vector<std::string> warnings_about(const record::Joint& joint,
                                        const finding::JointIndex& joints) {
  std::vector<std::string> warnings;
  for (const auto& [firsts, verb] :
       {std::pair{&joint.after, "is to come after"}, std::pair{&joint.covers, "covers"}}) {
    for (const auto& code : *firsts) {
      const auto* first = joints.find(code);
      if (first == nullptr) {
        warnings.push_back(
            fmt::format("{} {} {}, which is not in the logbook", joint.code, verb, code));
      } else if (joint.bench && !first->joint->bench) {
        warnings.push_back(fmt::format("{} is bench work but {} {}, which is not", joint.code, verb,
                                       first->joint->code));
      }
    }
  }
  for (const auto& code : joint.covers) {
    const auto* covered = joints.find(code);
    if (covered == nullptr || covered->joint->final_when.empty()) continue;
    warnings.push_back(fmt::format(
        "{} covers {}, which gets its final value only when {}: it is closed after that",
        joint.code, covered->joint->code, covered->joint->final_when));
  }
  return warnings;
}

}  // namespace

std::vector<ReassemblyRow> reassembly_order(const finding::Survey& survey) {
  const finding::JointIndex joints(survey);
  std::vector<ReassemblyRow> rows;
  for (auto& ordered : order_of(survey.joints).rows) {
    const auto* joint = joints.find(ordered.code);
    rows.push_back({joint, std::move(ordered.why), warnings_about(*joint->joint, joints)});
  }
  return rows;
}

}  // namespace plan
