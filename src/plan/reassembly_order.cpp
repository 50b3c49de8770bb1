#include "plan/reassembly_order.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "finding/joint_index.h"
#include "plan/joint_order.h"
#include "record/address.h"

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

// Of the links of a circle the one whose joint was entered last; what was there before it had an
// order.
const Precedence& latest_link(const JointCycle& cycle, const finding::JointIndex& joints) {
  return *std::ranges::max_element(cycle.links, {}, [&](const Precedence& link) {
    return joints.find(link.code)->entry->stamp.line;
  });
}

// What enters that joint again without the link, and with the others of its kind.
std::string mend_of(const Precedence& link, const finding::JointState& state) {
  const bool covers = link.kind == Precedence::Kind::Covers;
  const auto* option = covers ? "covers" : "after";
  std::string kept;
  for (const auto& code : covers ? state.joint->covers : state.joint->after) {
    if (!record::same_code(code, link.first)) kept += (kept.empty() ? "" : " ") + code;
  }
  return fmt::format(
      "joint {} --replace {} {} --why TEXT", state.joint->code, state.entry->stamp.line,
      kept.empty() ? fmt::format("--without {}", option) : fmt::format("--{} {}", option, kept));
}

[[noreturn]] void refuse_circle(const JointCycle& cycle, const finding::JointIndex& joints) {
  const auto& link = latest_link(cycle, joints);
  throw PlanCycle(
      fmt::format("no order can be found, the joints wait for each other in a circle: {}; strike "
                  "the wrong one and enter it again",
                  in_words(cycle)),
      fmt::format("where {} {} {} is wrong", link.code,
                  link.kind == Precedence::Kind::Covers ? "covers" : "after", link.first),
      mend_of(link, *joints.find(link.code)));
}

JointOrder order_of(const std::vector<JointState>& joints, const finding::JointIndex& index) {
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
    refuse_circle(*cycle, index);
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
  for (auto& ordered : order_of(survey.joints, joints).rows) {
    const auto* joint = joints.find(ordered.code);
    rows.push_back({joint, std::move(ordered.why), warnings_about(*joint->joint, joints)});
  }
  return rows;
}

}  // namespace plan
