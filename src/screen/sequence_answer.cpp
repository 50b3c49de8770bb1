#include "screen/sequence_answer.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "quantity/stated_torque.h"
#include "record/address.h"
#include "screen/json_text.h"
#include "words/adapter_in_words.h"
#include "words/joint_heading.h"
#include "words/pass_text.h"
#include "words/reassembly_cautions.h"

namespace screen {
namespace {

using plan::PlannedJoint;
using plan::PlannedPass;
using Kind = record::PassKind;

// How the source of a pass rule is known.
std::string known_text(const plan::Passes& passes) {
  return passes.how_known == "seen" ? "seen" : "from memory";
}

std::string order_text(const std::vector<int>& order) {
  std::string text;
  for (const int position : order) text += fmt::format("{}{}", text.empty() ? "" : " ", position);
  return text;
}

std::vector<int> open_in(const progress::Progress& progress, const PlannedJoint& joint,
                         const PlannedPass& planned) {
  std::vector<int> open;
  for (const int position : planned.order) {
    const auto* step = progress.step(joint.state->joint->code, planned.number, position);
    if (step == nullptr || step->stands != progress::Step::Stands::Done) open.push_back(position);
  }
  std::ranges::sort(open);
  return open;
}

bool is_done(const progress::Progress& progress, const PlannedJoint& joint) {
  return !joint.passes.empty() && std::ranges::all_of(joint.passes, [&](const auto& planned) {
    return open_in(progress, joint, planned).empty();
  });
}

// " - done", " - open at 3, 4"; empty where none of it has been done.
std::string done_text(const progress::Progress& progress, const PlannedJoint& joint,
                      const PlannedPass& planned) {
  const auto open = open_in(progress, joint, planned);
  if (open.empty()) return " - done";
  if (open.size() == planned.order.size()) return {};
  return fmt::format(" - open at {}", record::write_positions(open));
}

std::string pass_text(const PlannedJoint& joint, const PlannedPass& planned,
                      const progress::Progress& progress, const words::Page& page) {
  const auto line = fmt::format("pass {} of {}{}: {}{}", planned.number, planned.of,
                                words::at_positions(joint, planned.order),
                                words::work_text(planned, joint.state->unit),
                                done_text(progress, joint, planned));
  std::string text =
      words::wrapped(line, page.width, "  ", "      ") +
      words::wrapped(order_text(planned.order), page.width, "      order ", "            ");
  if (!planned.otherwise.empty())
    text += words::wrapped(planned.otherwise, page.width, "      ", "      ");
  return text;
}

// What passes follow, and what their rule asks for around them.
std::string passes_text(const std::string& label, const plan::Passes& passes,
                        const words::Page& page) {
  std::string text =
      words::wrapped(fmt::format("{}: {}", label, passes.origin), page.width, "  ", "    ");
  if (!passes.before.empty()) {
    text += words::wrapped("before the first: " + passes.before, page.width, "    ", "      ");
  }
  if (!passes.recheck.empty()) text += words::wrapped(passes.recheck, page.width, "    ", "      ");
  return text;
}

// The same for each group of positions, or once where all follow the same.
std::string groups_text(const PlannedJoint& joint, const words::Page& page) {
  const auto& groups = joint.groups;
  const bool all_the_same = std::ranges::all_of(groups, [&](const plan::PassGroup& group) {
    return group.passes.origin == groups.front().passes.origin;
  });
  std::string text;
  for (const auto& group : groups) {
    if (all_the_same) return passes_text("passes", group.passes, page);
    text += passes_text("passes" + words::at_positions(joint, group.positions), group.passes, page);
  }
  return text;
}

// A box for each, ticked where it is so already.
std::string conditions_text(std::string_view title, const std::vector<words::Condition>& conditions,
                            std::size_t indent, const words::Page& page) {
  if (conditions.empty()) return {};
  const std::string margin(indent, ' ');
  std::string text = fmt::format("{}{}\n", margin, title);
  for (const auto& [met, says] : conditions) {
    text += words::wrapped(says, page.width, fmt::format("{}  [{}] ", margin, met ? 'x' : ' '),
                           margin + "      ");
  }
  return text;
}

std::string closing_text(const PlannedJoint& joint, const words::Page& page) {
  const auto& what = *joint.state->joint;
  if (joint.is_left_open()) {
    return words::wrapped("then: left open; its final value when " + what.final_when, page.width,
                          "  ", "    ");
  }
  std::string text = "  then: final stripe on each fastener\n";
  if (what.rechecks.empty()) return text;
  std::string due;
  for (const auto& interval : what.rechecks) {
    due += (due.empty() ? "" : ", ") + record::in_words(interval);
  }
  return text + words::wrapped("re-check due after: " + due, page.width, "  ", "    ");
}

std::string joint_text(std::size_t number, const PlannedJoint& joint,
                       const progress::Progress& progress, const words::BeforeJoints& before,
                       const words::Page& page) {
  std::string text = words::joint_heading(*joint.state, page, fmt::format("{}. ", number));
  text += words::wrapped("why here: " + joint.why, page.width, "  ", "    ");
  text += words::wrapped("order: " + joint.positions.why, page.width, "  ", "    ");
  text += groups_text(joint, page);
  text += conditions_text("before it:", before.before(*joint.state), 2, page);
  for (const auto& planned : joint.passes) text += pass_text(joint, planned, progress, page);
  return text + closing_text(joint, page);
}

// "1-4. J10 J09 J06 J07: done": joints that follow one another, one of them at least.
std::string done_joints_text(std::size_t first, const std::vector<std::string>& codes,
                             const words::Page& page) {
  const auto last = first + codes.size() - 1;
  return '\n' + words::wrapped(fmt::format("{}. {}: done",
                                           first == last ? fmt::format("{}", first)
                                                         : fmt::format("{}-{}", first, last),
                                           fmt::join(codes, " ")),
                               page.width, "", "    ");
}

// The joints in their order; what was left open stands at the end, under what it waits for.
std::string joints_text(const plan::ReassemblyPlan& plan, const progress::Progress& progress,
                        const words::BeforeJoints& before, bool whole, const words::Page& page) {
  std::string text;
  std::string_view waits_for;
  std::vector<std::string> done;
  std::size_t number = 0;
  for (const auto& joint : plan.joints) {
    ++number;
    const bool is_told = whole || !is_done(progress, joint);
    if (is_told && !done.empty()) {
      text += done_joints_text(number - done.size(), done, page);
      done.clear();
    }
    if (!is_told) {
      done.push_back(joint.state->joint->code);
      continue;
    }
    const std::string_view when = joint.state->joint->final_when;
    if (joint.stage == plan::Stage::Final && when != waits_for) {
      waits_for = when;
      text += '\n' + words::wrapped(
                         words::strong(fmt::format("Left open until then: when {}", when), page),
                         page.width, "", "  ");
    }
    text += '\n' + joint_text(number, joint, progress, before, page);
  }
  return done.empty() ? text : text + done_joints_text(number + 1 - done.size(), done, page);
}

// Of the joints of which something is still to be done.
std::vector<std::string> warnings_of(const plan::ReassemblyPlan& plan,
                                     const progress::Progress& progress, bool whole) {
  if (whole) return plan.warnings;
  std::vector<const finding::JointState*> open;
  for (const auto& joint : plan.joints) {
    if (!is_done(progress, joint)) open.push_back(joint.state);
  }
  return plan::part_of(plan, open).warnings;
}

// Each pass rule that the plan uses, once, with its source.
std::string rule_sources(const plan::ReassemblyPlan& plan, const words::Page& page) {
  std::map<std::string, std::string> rules;
  for (const auto& joint : plan.joints) {
    for (const auto& group : joint.groups) {
      const auto& passes = group.passes;
      if (passes.rule.empty()) continue;
      rules.emplace(passes.rule, fmt::format("{} ({})", passes.source, known_text(passes)));
    }
  }
  std::string text;
  for (const auto& [rule, source] : rules) {
    text += words::wrapped(fmt::format("{}: {}", rule, source), page.width, "  ", "    ");
  }
  return text.empty() ? text : "\nPass rules used\n" + text;
}

std::string_view word_of(plan::Stage stage) {
  return stage == plan::Stage::Final ? "final" : "at its turn";
}

nlohmann::ordered_json step_json(int number, const PlannedJoint& joint, const PlannedPass& planned,
                                 int position, const std::string& adapter) {
  nlohmann::ordered_json step = {{"n", number},
                                 {"joint", joint.state->joint->code},
                                 {"pass", planned.number},
                                 {"position", position},
                                 {"kind", record::word_of(planned.pass.kind)},
                                 {"target_nm", nullptr},
                                 {"limit", nullptr},
                                 {"angle_deg", nullptr},
                                 {"wrench", nullptr},
                                 {"setting", nullptr},
                                 {"setting_unit", nullptr},
                                 {"provisional", planned.provisional},
                                 {"applied_nm", nullptr},
                                 {"adapter", nullptr},
                                 {"stage", word_of(joint.stage)},
                                 {"running_nm", nullptr},
                                 {"tolerance_used", nullptr}};
  if (planned.pass.aim) {
    step["target_nm"] = planned.pass.aim->torque.in_newton_metres();
    if (plan::is_minimum(*planned.pass.aim)) step["limit"] = "min";
    if (plan::is_maximum(*planned.pass.aim)) step["limit"] = "max";
    if (planned.pass.aim->running) {
      step["running_nm"] = planned.pass.aim->running->in_newton_metres();
    }
  }
  if (planned.pass.angle) step["angle_deg"] = planned.pass.angle->in_degrees();
  if (planned.setting) {
    step["wrench"] = planned.setting->wrench->name;
    step["setting"] = planned.setting->setting;
    step["setting_unit"] = quantity::name_of(planned.setting->wrench->scale.unit);
    step["applied_nm"] = planned.setting->applied.in_newton_metres();
    if (!adapter.empty()) step["adapter"] = adapter;
    if (planned.setting->tolerance_used) {
      step["tolerance_used"] = *planned.setting->tolerance_used;
    }
  }
  return step;
}

nlohmann::ordered_json conditions_json(const std::vector<words::Condition>& conditions) {
  auto rows = nlohmann::ordered_json::array();
  for (const auto& [met, says] : conditions) rows.push_back({{"met", met}, {"says", says}});
  return rows;
}

nlohmann::ordered_json group_json(const plan::PassGroup& group) {
  const auto& passes = group.passes;
  return {{"positions", group.positions},
          {"from", passes.origin},
          {"rule", text_or_null(passes.rule)},
          {"source", text_or_null(passes.source)},
          {"known", passes.rule.empty() ? nlohmann::ordered_json(nullptr)
                                        : nlohmann::ordered_json(known_text(passes))},
          {"before", text_or_null(passes.before)},
          {"recheck", text_or_null(passes.recheck)}};
}

// What a joint's steps have in common.
nlohmann::ordered_json joint_json(const PlannedJoint& joint, const words::BeforeJoints& before) {
  const auto& what = *joint.state->joint;
  nlohmann::ordered_json row = {{"joint", what.code},
                                {"stage", word_of(joint.stage)},
                                {"why", joint.why},
                                {"final_when", text_or_null(what.final_when)},
                                {"order", joint.positions.why},
                                {"before", conditions_json(before.before(*joint.state))},
                                {"groups", nlohmann::ordered_json::array()},
                                {"otherwise", nlohmann::ordered_json::array()},
                                {"recheck_after", nlohmann::ordered_json::array()}};
  for (const auto& group : joint.groups) row["groups"].push_back(group_json(group));
  for (const auto& planned : joint.passes) {
    if (planned.otherwise.empty()) continue;
    row["otherwise"].push_back({{"pass", planned.number},
                                {"restart_from", planned.restart_from},
                                {"do", planned.otherwise}});
  }
  for (const auto& interval : what.rechecks) {
    row["recheck_after"].push_back(record::write_exact(interval));
  }
  return row;
}

}  // namespace

std::string sequence_in_short(const plan::ReassemblyPlan& plan, const progress::Progress& progress,
                              const words::Page& page) {
  std::set<const finding::JointState*> joints;
  std::size_t passes = 0;
  std::string first;
  for (const auto& joint : plan.joints) {
    for (const auto& planned : joint.passes) {
      const auto open = open_in(progress, joint, planned);
      if (open.empty()) continue;
      joints.insert(joint.state);
      if (++passes > 1) continue;
      first = fmt::format("{}, pass {}: {}", record::write_address(joint.state->joint->code, open),
                          planned.number, words::work_text(planned, joint.state->unit));
    }
  }
  if (passes == 0) return {};
  const auto text =
      fmt::format("{} to go, {} {} open; first {}", words::counted(joints.size(), "joint"), passes,
                  passes == 1 ? "pass" : "passes", first);
  return words::wrapped(words::strong(text, page), page.width, "", "  ");
}

std::string sequence_text(const plan::ReassemblyPlan& plan, const progress::Progress& progress,
                          const audit::Audit& audit, const words::BeforeJoints& before, bool whole,
                          const words::Page& page) {
  if (plan.joints.empty()) return words::no_joints(page);
  const bool all_done = std::ranges::all_of(
      plan.joints, [&](const PlannedJoint& joint) { return is_done(progress, joint); });
  if (all_done && !whole) {
    return words::wrapped(
        "Every pass is done. \"boltwitness\" says what else is open; with "
        "--whole the plan stands here once more.",
        page.width, "", "");
  }
  std::string text = sequence_in_short(plan, progress, page) +
                     words::wrapped(words::sequence_cautions(), page.width, "", "");
  const auto holds = audit.open(audit::Level::Hold);
  if (holds > 0) {
    text += words::wrapped(fmt::format("{} still open; \"boltwitness audit\" names them.",
                                       words::counted(holds, "hold")),
                           page.width, "", "");
  }
  if (!audit.to_do.empty()) {
    text += words::wrapped(fmt::format("{} decided and not done; \"boltwitness audit\" names {}.",
                                       audit.to_do.size(), audit.to_do.size() == 1 ? "it" : "them"),
                           page.width, "", "");
  }
  if (record::is_used(plan.adapter)) {
    text +=
        '\n' + words::wrapped(
                   fmt::format("Every setting is through {}: the fastener gets {:.4g} times "
                               "the setting. Keep the angle, pull at the middle of the grip.",
                               words::adapter_in_words(plan.adapter), plan.adapter.torque_ratio),
                   page.width, "", "");
  }
  if (const auto warnings = warnings_of(plan, progress, whole); !warnings.empty()) {
    text += '\n' + words::strong("To see to first", page) + '\n';
    for (const auto& warning : warnings)
      text += words::wrapped(warning, page.width, "  - ", "    ");
  }
  if (const auto beside = before.goes_back(); !beside.empty()) {
    text += '\n' + conditions_text("What goes back beside the bolts", beside, 0, page);
  }
  return text + joints_text(plan, progress, before, whole, page) + rule_sources(plan, page);
}

std::string sequence_json(const plan::ReassemblyPlan& plan, const words::BeforeJoints& before) {
  JsonList joints;
  JsonList steps;
  int number = 0;
  const auto adapter = words::adapter_in_words(plan.adapter);
  for (const auto& joint : plan.joints) {
    joints.add(joint_json(joint, before));
    for (const auto& planned : joint.passes) {
      for (const int position : planned.order) {
        steps.add(step_json(++number, joint, planned, position, adapter));
      }
    }
  }
  return json_document(kSequenceFormat,
                       {{"steps", steps.take()},
                        {"warnings", json_value(plan.warnings)},
                        {"joints", joints.take()},
                        {"goes_back", json_value(conditions_json(before.goes_back()))}});
}

}  // namespace screen
