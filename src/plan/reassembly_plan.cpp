#include "plan/reassembly_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <numeric>
#include <set>

#include "plan/joint_order.h"
#include "plan/renewal_list.h"
#include "quantity/input_error.h"

namespace plan {
namespace {

using finding::JointState;

// The joints in the order in which they were last opened, as ranks; the last position to come out
// tells when a joint was open.
std::map<std::string, int> removal_ranks(const std::vector<const JointState*>& joints) {
  // Equal times, as where only the day was given, fall back to the order in which it was entered.
  using When = std::pair<record::Moment, std::string>;
  std::vector<std::pair<When, const JointState*>> opened;
  for (const auto* joint : joints) {
    std::optional<When> last;
    for (const auto& position : joint->positions) {
      if (position.removal == nullptr) continue;
      const auto& stamp = position.removal->stamp;
      const When when{stamp.done_at, stamp.id};
      last = last ? std::max(*last, when) : when;
    }
    if (last) opened.emplace_back(*last, joint);
  }
  std::ranges::stable_sort(opened, {}, [](const auto& pair) { return pair.first; });
  std::map<std::string, int> ranks;
  int rank = 0;
  for (const auto& [when, joint] : opened) ranks[joint->joint->code] = ++rank;
  return ranks;
}

JointOrder order_of(const std::vector<const JointState*>& joints) {
  const auto ranks = removal_ranks(joints);
  std::vector<JointToClose> to_close;
  std::vector<Precedence> precedences;
  for (const auto* joint : joints) {
    const auto& code = joint->joint->code;
    const auto rank = ranks.find(code);
    to_close.push_back(
        {code, rank == ranks.end() ? std::nullopt : std::optional<int>(rank->second)});
    for (const auto& first : joint->joint->after) {
      precedences.push_back({code, Precedence::Kind::After, first});
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

std::vector<int> counting_order(int count) {
  std::vector<int> order(static_cast<std::size_t>(count));
  std::iota(order.begin(), order.end(), 1);
  return order;
}

// Gathers the plan joint by joint and hands the wrench on from pass to pass.
class Planner {
 public:
  Planner(const record::Job& job, const finding::Survey& survey, record::Day day,
          const ThroughAdapter& adapter)
      : start_(job.start), wrenches_(job, day, adapter.torque_ratio) {
    for (const auto& renewing : renewal_list(job, survey)) {
      if (renewing.has_arrived) ++arrived_[renewing.joint];
    }
    plan_.adapter = adapter;
  }

  void add(const JointState& joint, std::string why) {
    PlannedJoint planned;
    planned.state = &joint;
    planned.why = std::move(why);
    planned.positions = position_order(joint.joint->layout, joint.joint->count);
    auto passes = passes_of(joint, start_);
    planned.passes_origin = std::move(passes.origin);
    planned.passes_rule = std::move(passes.rule);
    planned.passes_source = std::move(passes.source);
    planned.provisional = passes.provisional;
    for (auto& pass : passes.passes) {
      PlannedPass done;
      done.order = pass.round_in_counting_order ? counting_order(joint.joint->count)
                                                : planned.positions.positions;
      done.setting = setting_for(joint, pass);
      done.pass = std::move(pass);
      planned.passes.push_back(std::move(done));
    }
    warn_about(joint, planned);
    plan_.joints.push_back(std::move(planned));
  }

  void warn(std::string text) {
    if (warned_.insert(text).second) plan_.warnings.push_back(std::move(text));
  }

  ReassemblyPlan take() { return std::move(plan_); }

 private:
  std::optional<WrenchSetting> setting_for(const JointState& joint, const TighteningPass& pass) {
    if (!pass.aim) return std::nullopt;
    auto setting = wrenches_.choose(*pass.aim, last_wrench_);
    if (!setting) {
      warn(fmt::format("{}: {}", joint.joint->code, wrenches_.what_is_missing(*pass.aim)));
      return setting;
    }
    last_wrench_ = setting->wrench;
    if (!setting->calibration_known) {
      warn(fmt::format("{} has no calibration on record; check it before it is relied on",
                       setting->wrench->name));
    }
    return setting;
  }

  void warn_about(const JointState& joint, const PlannedJoint& planned) {
    const auto& code = joint.joint->code;
    if (planned.provisional) {
      warn(fmt::format("{}: its torque is provisional, from finding; look for the maker's figure",
                       code));
    } else if (joint.specified() == nullptr) {
      warn(fmt::format("{}: no specification and no finding to stand in; find the maker's figure",
                       code));
    }
    if (joint.joint->one_time) {
      warn(fmt::format("{}: one-time fasteners, fit new ones ({}{})", code, joint.joint->count,
                       arrived_text(joint)));
    }
  }

  // ", 4 of them here"; empty where none has arrived.
  std::string arrived_text(const JointState& joint) const {
    const auto arrived = arrived_.find(&joint);
    return arrived == arrived_.end() ? "" : fmt::format(", {} of them here", arrived->second);
  }

  const record::LogbookStart& start_;
  WrenchChoice wrenches_;
  const record::Wrench* last_wrench_ = nullptr;
  std::map<const JointState*, int> arrived_;  // new fasteners that lie ready
  ReassemblyPlan plan_;
  std::set<std::string> warned_;
};

}  // namespace

ReassemblyPlan reassembly_plan(const record::Job& job, const finding::Survey& survey,
                               const std::vector<const JointState*>& joints, record::Day day,
                               const ThroughAdapter& adapter) {
  // The whole job decides the order, whichever joints are asked for.
  std::vector<const JointState*> all;
  std::map<std::string_view, const JointState*> by_code;
  for (const auto& joint : survey.joints) {
    all.push_back(&joint);
    by_code[joint.joint->code] = &joint;
  }
  const std::set<const JointState*> wanted(joints.begin(), joints.end());
  const auto order = order_of(all);

  Planner planner(job, survey, day, adapter);
  for (const auto& row : order.rows) {
    const auto* joint = by_code.at(row.code);
    if (wanted.contains(joint)) planner.add(*joint, row.why);
  }
  for (const auto& missing : order.unknown) {
    planner.warn(fmt::format("{} is to come after {}, which is not in the logbook", missing.code,
                             missing.first));
  }
  return planner.take();
}

}  // namespace plan
