#include "plan/reassembly_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <set>

#include "plan/renewal_list.h"
#include "quantity/angle_text.h"
#include "record/address.h"

namespace plan {
namespace {

using finding::JointState;

// Those of the order that belong to the group, in the same order.
std::vector<int> of_group(const std::vector<int>& order, const std::vector<int>& positions) {
  if (order.size() == positions.size()) return order;
  std::vector<int> kept;
  std::ranges::copy_if(order, std::back_inserter(kept), [&](int position) {
    return std::ranges::binary_search(positions, position);
  });
  return kept;
}

// What to do with a position that fails a pass; empty for a pass that cannot fail.
std::string otherwise_text(const TighteningPass& pass, const record::Joint& joint, int from) {
  const auto again = fmt::format("slacken that one fully and start it again from pass {}{}", from,
                                 joint.one_time ? " with a new fastener" : "");
  if (pass.window) {
    return fmt::format("short of {} or past {}: {}", quantity::write_exact(pass.window->least),
                       quantity::write_exact(pass.window->most), again);
  }
  if (pass.checks_angle) {
    return fmt::format(
        "turns before the click: look at thread and seat, {}{} (common practice, no source)", again,
        joint.one_time ? "" : "; renew it where it fails twice");
  }
  return {};
}

// The check rounds at the end of the passes are set apart from the work before them.
std::size_t count_of_work(const std::vector<TighteningPass>& passes) {
  const bool ends_in_check = !passes.empty() && passes.back().kind == record::PassKind::Check;
  return passes.size() - (ends_in_check ? 1 : 0);
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

  void add_at_its_turn(const JointState& joint, std::string why) {
    PlannedJoint planned = planned_joint(joint, Stage::AtItsTurn, std::move(why));
    if (joint.joint->final_when.empty()) {
      add_passes(planned);
    } else {
      add_snug(planned);
    }
    if (joint.joint->one_time) {
      warn(fmt::format("{}: one-time fasteners, fit new ones ({}{})", joint.joint->code,
                       joint.joint->count, arrived_text(joint)));
    }
    plan_.joints.push_back(std::move(planned));
  }

  void add_final(const JointState& joint) {
    PlannedJoint planned = planned_joint(
        joint, Stage::Final, fmt::format("final value when {}", joint.joint->final_when));
    add_passes(planned);
    plan_.joints.push_back(std::move(planned));
  }

  void warn(std::string text) {
    if (warned_.insert(text).second) plan_.warnings.push_back(std::move(text));
  }

  ReassemblyPlan take() { return std::move(plan_); }

 private:
  static PlannedJoint planned_joint(const JointState& joint, Stage stage, std::string why) {
    PlannedJoint planned;
    planned.state = &joint;
    planned.stage = stage;
    planned.why = std::move(why);
    planned.positions = position_order(*joint.joint);
    return planned;
  }

  // How many passes the group has in all, the snug one included.
  static int passes_in_all(const JointState& joint, const PassGroup& group) {
    return static_cast<int>(group.passes.passes.size()) + first_number(joint) - 1;
  }
  static int first_number(const JointState& joint) {
    return joint.joint->final_when.empty() ? 1 : 2;
  }

  std::vector<PassGroup> groups_of(const JointState& joint) const {
    std::vector<PassGroup> groups;
    for (const auto& group : finding::specification_groups(joint)) {
      groups.push_back({group.positions, passes_of(joint, group, start_)});
    }
    return groups;
  }

  void add_snug(PlannedJoint& planned) {
    PlannedPass snug;
    snug.pass.kind = record::PassKind::Snug;
    snug.order = planned.positions.positions;
    for (const auto& group : groups_of(*planned.state)) {
      snug.of = std::max(snug.of, passes_in_all(*planned.state, group));
    }
    planned.passes.push_back(std::move(snug));
  }

  void add_passes(PlannedJoint& planned) {
    planned.groups = groups_of(*planned.state);
    std::size_t rounds = 0;
    for (const auto& group : planned.groups) {
      rounds = std::max(rounds, count_of_work(group.passes.passes));
      warn_about(*planned.state, group);
    }
    for (std::size_t left = rounds; left > 0; --left) {
      for (const auto& group : planned.groups) {
        const auto work = count_of_work(group.passes.passes);
        if (left <= work) add_pass(planned, group, work - left);
      }
    }
    for (const auto& group : planned.groups) {
      const auto work = count_of_work(group.passes.passes);
      if (work < group.passes.passes.size()) add_pass(planned, group, work);
    }
  }

  void add_pass(PlannedJoint& planned, const PassGroup& group, std::size_t index) {
    const auto& joint = *planned.state;
    PlannedPass added;
    added.pass = group.passes.passes[index];
    added.order = in_order_of(planned, added.pass, group.positions);
    added.setting = setting_for(joint, added.pass);
    added.number = first_number(joint) + static_cast<int>(index);
    added.of = passes_in_all(joint, group);
    added.provisional = group.passes.provisional;
    const int from = first_number(joint) + first_with_these_fasteners(group, index);
    added.otherwise = otherwise_text(added.pass, *joint.joint, from);
    if (!added.otherwise.empty()) added.restart_from = from;
    place(planned, std::move(added));
  }

  // Behind the passes so far, or into one of them that asks for the same: then all its positions go
  // in the joint's own order.
  static void place(PlannedJoint& planned, PlannedPass added) {
    const auto same = std::ranges::find_if(planned.passes, [&](const PlannedPass& other) {
      return other.number == added.number && other.of == added.of && other.pass == added.pass &&
             other.otherwise == added.otherwise && other.provisional == added.provisional;
    });
    if (same == planned.passes.end()) {
      planned.passes.push_back(std::move(added));
      return;
    }
    auto together = same->order;
    together.insert(together.end(), added.order.begin(), added.order.end());
    std::ranges::sort(together);
    same->order = in_order_of(planned, added.pass, together);
  }

  // These positions, rising as given, in the order in which the pass goes over them.
  static std::vector<int> in_order_of(const PlannedJoint& planned, const TighteningPass& pass,
                                      const std::vector<int>& positions) {
    return pass.round_in_counting_order ? positions
                                        : of_group(planned.positions.positions, positions);
  }

  // The index of the first pass of the group that the fasteners in place at this pass went through.
  static int first_with_these_fasteners(const PassGroup& group, std::size_t index) {
    for (std::size_t i = index; i > 0; --i) {
      if (group.passes.passes[i - 1].kind == record::PassKind::Renew) return static_cast<int>(i);
    }
    return 0;
  }

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

  void warn_about(const JointState& joint, const PassGroup& group) {
    const bool is_whole = group.positions.size() == joint.positions.size();
    const auto which = is_whole ? joint.joint->code
                                : fmt::format("{}/{}", joint.joint->code,
                                              record::write_positions(group.positions));
    const auto& passes = group.passes;
    if (passes.provisional) {
      warn(fmt::format("{}: its torque is provisional, from finding; look for the maker's figure",
                       which));
    } else if (joint.at(group.positions.front()).specified == nullptr) {
      warn(fmt::format("{}: no specification and no finding to stand in; find the maker's figure",
                       which));
    }
    if (!passes.warning.empty()) warn(passes.warning);
    if (std::ranges::find(passes.passes, record::PassKind::Renew, &TighteningPass::kind) !=
        passes.passes.end()) {
      warn(fmt::format("{}: new bolts go in between the passes; have {} ready", which,
                       group.positions.size()));
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

// The joints whose final value waits, those that wait for the same together, in the order given.
std::vector<const JointState*> left_open(const std::vector<const JointState*>& in_order) {
  std::vector<std::string_view> conditions;
  std::vector<std::vector<const JointState*>> by_condition;
  for (const auto* joint : in_order) {
    const std::string_view when = joint->joint->final_when;
    if (when.empty()) continue;
    const auto known = std::ranges::find(conditions, when) - conditions.begin();
    if (known == std::ssize(conditions)) {
      conditions.push_back(when);
      by_condition.emplace_back();
    }
    by_condition[static_cast<std::size_t>(known)].push_back(joint);
  }
  std::vector<const JointState*> joints;
  for (const auto& together : by_condition) {
    joints.insert(joints.end(), together.begin(), together.end());
  }
  return joints;
}

}  // namespace

ReassemblyPlan reassembly_plan(const record::Job& job, const finding::Survey& survey,
                               const std::vector<const JointState*>& joints, record::Day day,
                               const ThroughAdapter& adapter) {
  const std::set<const JointState*> wanted(joints.begin(), joints.end());
  Planner planner(job, survey, day, adapter);
  std::vector<const JointState*> in_order;
  // The whole job decides the order, whichever joints are asked for.
  for (auto& row : reassembly_order(survey)) {
    if (!wanted.contains(row.joint)) continue;
    in_order.push_back(row.joint);
    planner.add_at_its_turn(*row.joint, std::move(row.why));
    for (auto& warning : row.warnings) planner.warn(std::move(warning));
  }
  for (const auto* joint : left_open(in_order)) planner.add_final(*joint);
  return planner.take();
}

}  // namespace plan
