#include "plan/reassembly_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <utility>

#include "finding/self_locking.h"
#include "plan/broken_loose.h"
#include "plan/decided.h"
#include "plan/renewal_list.h"
#include "plan/turned_stripes.h"
#include "quantity/angle_text.h"
#include "quantity/number_text.h"
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

std::vector<std::string> warnings_of(const std::vector<PlannedJoint>& joints) {
  std::vector<std::string> warnings;
  std::set<std::string_view> known;
  for (const auto& joint : joints) {
    for (const auto& warning : joint.warnings) {
      if (known.insert(warning).second) warnings.push_back(warning);
    }
  }
  return warnings;
}

// Gathers the plan joint by joint and hands the wrench on from pass to pass.
class Planner {
 public:
  Planner(const record::Job& job, const finding::Survey& survey, record::Day day,
          const ThroughAdapter& adapter)
      : start_(job.start),
        decided_(job, survey),
        turned_(job),
        broken_loose_(job),
        wrenches_(job, day, adapter.torque_ratio) {
    for (const auto& renewing : renewal_list(job, survey)) {
      if (renewing.has_arrived) ++arrived_[renewing.joint];
      if (renewing.is_certain()) renewed_.emplace(renewing.joint, renewing.position);
    }
    plan_.adapter = adapter;
  }

  void add_at_its_turn(ReassemblyRow row) {
    const JointState& joint = *row.joint;
    PlannedJoint planned = planned_joint(joint, Stage::AtItsTurn, std::move(row.why));
    if (joint.joint->final_when.empty()) {
      add_passes(planned);
    } else {
      add_snug(planned);
    }
    if (joint.joint->one_time) warn_about_one_time(joint);
    for (auto& warning : row.warnings) warn(std::move(warning));
    add(std::move(planned));
  }

  void add_final(const JointState& joint) {
    PlannedJoint planned = planned_joint(
        joint, Stage::Final, fmt::format("final value when {}", joint.joint->final_when));
    add_passes(planned);
    add(std::move(planned));
  }

  ReassemblyPlan take() {
    plan_.warnings = warnings_of(plan_.joints);
    return std::move(plan_);
  }

 private:
  // Of the joint at hand.
  void warn(std::string text) {
    if (std::ranges::find(warnings_, text) == warnings_.end()) warnings_.push_back(std::move(text));
  }

  void add(PlannedJoint planned) {
    planned.warnings = std::exchange(warnings_, {});
    plan_.joints.push_back(std::move(planned));
  }

  // New ones go in, but for those that it was decided to use once more.
  void warn_about_one_time(const JointState& joint) {
    const auto again = std::ranges::count_if(joint.positions, [&](const auto& position) {
      return decided_.at(joint.joint->code, position.position).as_is.contains(kOneTimeRule);
    });
    if (again > 0) {
      warn(fmt::format("{}: one-time fasteners, {} used once more as decided", joint.joint->code,
                       again));
    }
    const auto fresh = joint.joint->count - again;
    if (fresh <= 0) return;
    warn(fmt::format("{}: one-time fasteners, fit new ones ({}{})", joint.joint->code, fresh,
                     arrived_text(joint)));
  }

  bool is_left_alone(const JointState& joint, int position) const {
    return decided_.at(joint.joint->code, position).left_alone != nullptr;
  }

  PlannedJoint planned_joint(const JointState& joint, Stage stage, std::string why) {
    PlannedJoint planned;
    planned.state = &joint;
    planned.stage = stage;
    planned.why = std::move(why);
    planned.positions = position_order(*joint.joint);
    std::vector<int> left_alone;
    std::erase_if(planned.positions.positions, [&](int position) {
      if (!is_left_alone(joint, position)) return false;
      left_alone.push_back(position);
      return true;
    });
    if (!left_alone.empty()) {
      std::ranges::sort(left_alone);
      warn(fmt::format("{}: left as decided, nothing is put back or tightened there",
                       record::write_address(joint.joint->code, left_alone)));
    }
    return planned;
  }

  // How many passes the group has in all, those that reopen it and the snug one included.
  static int passes_in_all(const JointState& joint, const PassGroup& group) {
    return static_cast<int>(group.passes.passes.size()) + first_number(joint, group) - 1;
  }
  static int first_number(const JointState& joint, const PassGroup& group) {
    return static_cast<int>(group.reopening.size()) + (joint.joint->final_when.empty() ? 1 : 2);
  }

  // What parts positions that share a specification.
  struct Behind {
    Reopening reopening = Reopening::None;
    Running running;

    bool operator==(const Behind&) const = default;
  };

  Reopening reopening_of(const JointState& joint, int position) const {
    const auto& code = joint.joint->code;
    if (decided_.at(code, position).is_renewed_in_place) return Reopening::Renewed;
    if (turned_.since_out(code, position, joint.at(position).removal) == nullptr) {
      const auto& tested = broken_loose_.at(code, position);
      const bool is_spent = tested.test != nullptr && !tested.is_out_since && joint.joint->one_time;
      return is_spent ? Reopening::TestedSpent : Reopening::None;
    }
    return finding::is_spent_once_slackened(joint, position) ? Reopening::TurnedSpent
                                                             : Reopening::Turned;
  }

  // `most_running` is the joint's finding::most_running_torque.
  Behind behind_of(const JointState& joint, int position,
                   const std::optional<quantity::StatedTorque>& most_running) const {
    const auto& state = joint.at(position);
    Behind behind{reopening_of(joint, position), {}};
    if (state.specified == nullptr) return behind;
    const auto* finding = state.finding();
    auto& running = behind.running;
    if (finding != nullptr) running.read = finding->entry->content.prevailing;
    if (renewed_.contains({&joint, position})) {
      running.of_before = std::exchange(running.read, std::nullopt);
    }
    if (!running.read) running.may_be = most_running;
    return behind;
  }

  static std::string_view origin_of(Reopening reopening) {
    switch (reopening) {
      case Reopening::Renewed:
        return "decided to be renewed; ";
      case Reopening::TestedSpent:
        return "tested since it was tightened; ";
      case Reopening::None:
      case Reopening::Turned:
      case Reopening::TurnedSpent:
        break;
    }
    return "final stripe found turned; ";
  }

  std::vector<PassGroup> groups_of(const JointState& joint) const {
    std::vector<PassGroup> groups;
    const auto most_running = finding::most_running_torque(joint);
    for (auto group : finding::specification_groups(joint)) {
      std::vector<std::pair<Behind, std::vector<int>>> alike;
      for (const int position : group.positions) {
        if (is_left_alone(joint, position)) continue;
        const auto behind = behind_of(joint, position, most_running);
        auto same = std::ranges::find(alike, behind, &decltype(alike)::value_type::first);
        if (same == alike.end()) same = alike.insert(same, {behind, {}});
        same->second.push_back(position);
      }
      for (auto& [behind, positions] : alike) {
        group.positions = positions;
        groups.push_back({std::move(positions), passes_of(joint, group, start_, behind.running)});
        if (behind.reopening == Reopening::None) continue;
        groups.back().reopening = reopening_passes(behind.reopening);
        groups.back().passes.origin.insert(0, origin_of(behind.reopening));
      }
    }
    return groups;
  }

  // What stands at the joint's turn before its passes.
  void add_reopening(PlannedJoint& planned, const std::vector<PassGroup>& groups) {
    for (const auto& group : groups) {
      for (std::size_t i = 0; i < group.reopening.size(); ++i) {
        PlannedPass added;
        added.pass = group.reopening[i];
        added.order = of_group(planned.positions.positions, group.positions);
        added.number = static_cast<int>(i) + 1;
        added.of = passes_in_all(*planned.state, group);
        place(planned, std::move(added));
      }
      if (group.reopening.size() > 1) {
        warn(fmt::format("{}: new ones go in for those that are in; have {} ready",
                         which(*planned.state, group), group.positions.size()));
      }
    }
  }

  void add_snug(PlannedJoint& planned) {
    const auto groups = groups_of(*planned.state);
    add_reopening(planned, groups);
    for (const auto& group : groups) {
      PlannedPass snug;
      snug.pass.kind = record::PassKind::Snug;
      snug.order = of_group(planned.positions.positions, group.positions);
      snug.number = first_number(*planned.state, group) - 1;
      snug.of = passes_in_all(*planned.state, group);
      const auto same = std::ranges::find_if(planned.passes, [&](const PlannedPass& other) {
        return other.pass == snug.pass && other.number == snug.number;
      });
      if (same != planned.passes.end()) snug.of = same->of = std::max(same->of, snug.of);
      place(planned, std::move(snug));
    }
  }

  void add_passes(PlannedJoint& planned) {
    planned.groups = groups_of(*planned.state);
    if (planned.stage == Stage::AtItsTurn) add_reopening(planned, planned.groups);
    std::size_t rounds = 0;
    for (const auto& group : planned.groups) {
      rounds = std::max(rounds, count_of_work(group.passes.passes));
      warn_about(*planned.state, group);
    }
    warn_about_running(planned);
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
    added.number = first_number(joint, group) + static_cast<int>(index);
    added.of = passes_in_all(joint, group);
    added.provisional = group.passes.provisional;
    const int from = first_number(joint, group) + first_with_these_fasteners(group, index);
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
    if (uses_up_tolerance(*setting)) {
      warn(fmt::format("{}: {}; no wrench here does better", joint.joint->code,
                       tolerance_used_in_words(*pass.aim, *setting, start_.unit)));
    }
    if (!setting->calibration_known) {
      warn(fmt::format("{} has no calibration on record; check it before it is relied on",
                       setting->wrench->name));
    }
    return setting;
  }

  // The joint, or those of its positions that the group has.
  static std::string which(const JointState& joint, const PassGroup& group) {
    return group.positions.size() == joint.positions.size()
               ? joint.joint->code
               : fmt::format("{}/{}", joint.joint->code, record::write_positions(group.positions));
  }

  void warn_about(const JointState& joint, const PassGroup& group) {
    const auto where = which(joint, group);
    const auto& passes = group.passes;
    if (passes.provisional) {
      warn(fmt::format("{}: its torque is provisional, from finding; look for the maker's figure",
                       where));
    } else if (joint.at(group.positions.front()).specified == nullptr) {
      warn(fmt::format("{}: no specification and no finding to stand in; find the maker's figure",
                       where));
    }
    if (!passes.warning.empty()) warn(passes.warning);
    if (std::ranges::find(passes.passes, record::PassKind::Renew, &TighteningPass::kind) !=
        passes.passes.end()) {
      warn(fmt::format("{}: new bolts go in between the passes; have {} ready", where,
                       group.positions.size()));
    }
  }

  // One joint has one kind of fastener: where some run hard, all do, and what a torque does not
  // hold is said.
  void warn_about_running(const PlannedJoint& planned) {
    const auto& joint = *planned.state;
    if (!finding::has_running_torque(joint)) return;
    const auto most_running = finding::most_running_torque(joint);
    std::vector<int> new_ones;
    std::vector<int> not_read;
    for (const auto& position : joint.positions) {
      if (position.specified == nullptr || is_left_alone(joint, position.position)) continue;
      if (renewed_.contains({&joint, position.position})) {
        new_ones.push_back(position.position);
      } else if (!behind_of(joint, position.position, most_running).running.read) {
        not_read.push_back(position.position);
      }
    }
    const auto say = [&](const std::vector<int>& positions, std::string_view why) {
      if (positions.empty()) return;
      warn(
          fmt::format("{}: the settings hold no running torque, {}; read it before it seats and "
                      "add it",
                      record::write_address(joint.joint->code, positions), why));
    };
    say(new_ones, "that of a new fastener is not known");
    say(not_read, "it was not read in a test of this teardown");
  }

  // ", 4 of them here"; empty where none has arrived.
  std::string arrived_text(const JointState& joint) const {
    const auto arrived = arrived_.find(&joint);
    return arrived == arrived_.end() ? "" : fmt::format(", {} of them here", arrived->second);
  }

  const record::LogbookStart& start_;
  Decided decided_;
  TurnedStripes turned_;
  BrokenLoose broken_loose_;
  WrenchChoice wrenches_;
  const record::Wrench* last_wrench_ = nullptr;
  std::map<const JointState*, int> arrived_;             // new fasteners that lie ready
  std::set<std::pair<const JointState*, int>> renewed_;  // positions that get a new one
  ReassemblyPlan plan_;
  std::vector<std::string> warnings_;  // of the joint at hand
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

// Takes out what has to wait until others have their final value: what covers a joint whose final
// value waits, and what comes after or covers such a one. The first row waits for nothing.
std::vector<ReassemblyRow> put_off(std::vector<ReassemblyRow>& rows) {
  std::set<std::string> waiting;  // for their final value, by folded code
  std::set<std::string> later;
  const auto names_one_of = [](const std::vector<std::string>& names,
                               const std::set<std::string>& codes) {
    return std::ranges::any_of(
        names, [&](const std::string& name) { return codes.contains(record::folded_code(name)); });
  };
  std::vector<ReassemblyRow> now;
  std::vector<ReassemblyRow> off;
  for (auto& row : rows) {
    const auto& joint = *row.joint->joint;
    const bool waits = names_one_of(joint.covers, waiting) || names_one_of(joint.covers, later) ||
                       names_one_of(joint.after, later);
    if (waits) {
      later.insert(record::folded_code(joint.code));
    } else if (!joint.final_when.empty()) {
      waiting.insert(record::folded_code(joint.code));
    }
    (waits ? off : now).push_back(std::move(row));
  }
  rows = std::move(now);
  return off;
}

}  // namespace

ReassemblyPlan reassembly_plan(const record::Job& job, const finding::Survey& survey,
                               const std::vector<const JointState*>& joints, record::Day day,
                               const ThroughAdapter& adapter) {
  const std::set<const JointState*> wanted(joints.begin(), joints.end());
  Planner planner(job, survey, day, adapter);
  // The whole job decides the order, whichever joints are asked for.
  auto rows = reassembly_order(survey);
  while (!rows.empty()) {
    auto later = put_off(rows);
    std::vector<const JointState*> in_order;
    for (auto& row : rows) {
      if (!wanted.contains(row.joint)) continue;
      in_order.push_back(row.joint);
      planner.add_at_its_turn(std::move(row));
    }
    for (const auto* joint : left_open(in_order)) planner.add_final(*joint);
    rows = std::move(later);
  }
  return planner.take();
}

ReassemblyPlan part_of(const ReassemblyPlan& whole, const std::vector<const JointState*>& joints) {
  const std::set<const JointState*> wanted(joints.begin(), joints.end());
  ReassemblyPlan part;
  part.adapter = whole.adapter;
  std::ranges::copy_if(whole.joints, std::back_inserter(part.joints),
                       [&](const PlannedJoint& joint) { return wanted.contains(joint.state); });
  part.warnings = warnings_of(part.joints);
  return part;
}

}  // namespace plan
