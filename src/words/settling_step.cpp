#include "words/settling_step.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>

#include "audit/decision_table.h"
#include "audit/rules.h"
#include "audit/settlement.h"
#include "plan/renewal_list.h"
#include "progress/finish_commands.h"
#include "progress/unfinished_before.h"
#include "quantity/number_text.h"
#include "record/address.h"

namespace words {
namespace {

using audit::Deviation;
using progress::OpenKind;
using progress::Reassembly;

bool is_of(const Deviation& deviation, const audit::Rule& rule) {
  return deviation.rule == rule.name;
}

std::vector<int> positions_meant(const Deviation& deviation) {
  const auto open = audit::open_positions(deviation);
  return open.empty() ? deviation.positions : open;
}

std::string address_of(const std::string& joint, const std::vector<int>& positions) {
  return positions.empty() ? joint : record::write_address(joint, positions);
}

// An id as a shell takes it: the name of a wrench may hold a blank.
std::string typed(const std::string& id) {
  return id.find(' ') == std::string::npos ? id : quantity::quoted(id);
}

bool has_open_step(const Reassembly& reassembly, const std::string& joint,
                   const std::vector<int>& positions) {
  return std::ranges::any_of(positions, [&](int position) {
    return std::ranges::any_of(
        reassembly.progress.steps_of(joint, position),
        [](const progress::Step* step) { return step->stands == progress::Step::Stands::Open; });
  });
}

// "use-as-is, re-torque, renew or repair": what the rule lets be decided.
std::string choices(const Deviation& deviation) {
  std::vector<std::string_view> taken;
  for (const auto& word : record::Vocabulary<record::Decision>::kWords) {
    if (audit::why_not(deviation, word.value).empty()) taken.push_back(word.text);
  }
  std::string text;
  for (std::size_t i = 0; i < taken.size(); ++i) {
    text += i == 0 ? "" : i + 1 == taken.size() ? " or " : ", ";
    text += taken[i];
  }
  return text;
}

// Where what was found is looked up before it is decided.
std::string where_shown(const Deviation& deviation) {
  const auto positions = positions_meant(deviation);
  if (deviation.joint.empty()) return "audit";
  if (positions.empty()) return "show " + deviation.joint;
  return "show " + record::write_address(deviation.joint, positions.front());
}

NextStep decision_on(const Deviation& deviation, const Reassembly& reassembly) {
  const auto* joint = finding::joint_in(reassembly.survey, deviation.joint);
  const bool takes_two = joint != nullptr && joint->joint->critical;
  return {fmt::format("settle {} --as DECISION --why TEXT{}", typed(deviation.id),
                      takes_two ? " --with WHO" : ""),
          fmt::format("to settle: {}; decide: {}? {} tells what was found (settle --help)",
                      deviation.id, choices(deviation), where_shown(deviation))};
}

NextStep deed(std::string command, const Deviation& deviation) {
  return {std::move(command), "to settle: " + deviation.id};
}

// The command of the first that is open of this kind in the joint; empty where none is.
std::string command_of_first(const std::vector<progress::OpenPoint>& open, OpenKind kind,
                             const std::string& joint) {
  const auto found = std::ranges::find_if(open, [&](const progress::OpenPoint& point) {
    return point.kind == kind && record::same_code(point.joint, joint);
  });
  return found == open.end() ? std::string() : found->command;
}

// Those that have to come out again.
bool comes_out(const Deviation& deviation) {
  if (is_of(deviation, audit::kOneTime)) return deviation.id.ends_with(":old-in");
  if (is_of(deviation, audit::kNotToBeTested)) return deviation.kind != "live-load";
  if (is_of(deviation, audit::kTurn)) return deviation.kind == "one-time";
  return is_of(deviation, audit::kCountOut) || is_of(deviation, audit::kClosedOver);
}

// Those of which the passes themselves are open.
bool is_tightened_on(const Deviation& deviation) {
  return is_of(deviation, audit::kOtherTarget) || is_of(deviation, audit::kNotBack) ||
         is_of(deviation, audit::kStripeTurned) || is_of(deviation, audit::kPassSkipped) ||
         is_of(deviation, audit::kFoundAfterTightening) || is_of(deviation, audit::kStripeTooEarly);
}

// The last pass once more, at those of the positions that have the same.
std::optional<std::string> last_pass_again(const std::string& joint,
                                           const std::vector<int>& positions,
                                           const Reassembly& reassembly) {
  std::vector<int> together;
  int number = 0;
  for (const int position : positions) {
    const auto steps = reassembly.progress.steps_of(joint, position);
    if (steps.empty()) continue;
    const int last = steps.back()->pass_number();
    if (together.empty()) number = last;
    if (last == number) together.push_back(position);
  }
  if (together.empty()) return std::nullopt;
  return fmt::format("tighten {} --pass {}", record::write_address(joint, together), number);
}

// Goes on with the passes of the joint, or of the one that has to be finished first.
NextStep tighten_on(const record::Joint& joint, const std::string& why,
                    const Reassembly& reassembly, const std::vector<progress::OpenPoint>& open) {
  // One-time, and turned by the angle already: it comes out first.
  const auto spent = command_of_first(open, OpenKind::Spent, joint.code);
  if (!spent.empty()) {
    return {spent, why + "; one-time, and turned by the angle already: fit new ones"};
  }
  auto text = why;
  const auto* at = &joint;
  // No chain is longer than there are joints.
  for (std::size_t i = 0; i <= reassembly.survey.joints.size(); ++i) {
    const auto unmet = progress::unfinished_before(reassembly.progress, *at);
    const auto* first =
        unmet.empty() ? nullptr : finding::joint_in(reassembly.survey, unmet.front().first);
    if (first == nullptr) break;
    text += "; " + progress::in_words(unmet.front());
    at = first->joint;
  }
  const auto passes = std::ranges::find_if(open, [&](const progress::OpenPoint& point) {
    return point.kind == OpenKind::Pass && record::same_code(point.joint, at->code);
  });
  // Where its cover is on, that is opened first.
  const bool is_told = at != &joint && passes != open.end() && !passes->command.empty();
  return {is_told ? passes->command : "tighten " + at->code, std::move(text)};
}

// A word corrects no record: the line that says it is struck or entered again.
NextStep correction_of(const Deviation& deviation, const audit::Decided& decision,
                       const std::string& why) {
  const auto part = std::ranges::find(deviation.parts, &decision, &audit::Part::settled);
  if (part == deviation.parts.end() || part->told_in == nullptr) {
    return {"audit",
            why + "; it names the line that is wrong: strike it, or enter it again with --replace"};
  }
  return {fmt::format("strike {} --why TEXT", part->told_in->line),
          fmt::format("{}; or enter that line again with --replace {}", why, part->told_in->line)};
}

}  // namespace

NextStep step_to_settle(const Deviation& deviation, const Reassembly& reassembly,
                        const std::vector<progress::OpenPoint>& open) {
  const auto positions = positions_meant(deviation);
  const auto* joint = finding::joint_in(reassembly.survey, deviation.joint);
  if (joint == nullptr) return decision_on(deviation, reassembly);
  const auto& code = joint->joint->code;
  const auto address = address_of(code, positions);
  if (is_of(deviation, audit::kNoSpecification)) {
    return {
        fmt::format("joint {} --spec TORQUE --source DOCUMENT", address),
        fmt::format("to settle: {0}; the maker's figure, and where there is none: settle {1} --as "
                    "use-as-is --why TEXT",
                    deviation.id, typed(deviation.id))};
  }
  if (is_of(deviation, audit::kNeverOut)) {
    auto step = decision_on(deviation, reassembly);
    step.why += fmt::format("; if it did come out: out {} --at WHEN", address);
    return step;
  }
  if (is_of(deviation, audit::kNotRenewed)) {
    constexpr std::string_view kIfNew = "; if a new one is in, enter its arrival: audit tells how";
    if (deviation.kind == audit::kOldIn) {
      return {"out " + address,
              fmt::format("to settle: {}; the old one is in{}", deviation.id, kIfNew)};
    }
    auto step = decision_on(deviation, reassembly);
    step.why += kIfNew;
    return step;
  }
  if (comes_out(deviation)) return deed("out " + address, deviation);
  if (is_of(deviation, audit::kOneTime)) return deed("renew " + code + " --arrived", deviation);
  if (is_tightened_on(deviation) && has_open_step(reassembly, code, positions)) {
    return tighten_on(*joint->joint, "to settle: " + deviation.id, reassembly, open);
  }
  if (is_of(deviation, audit::kStripeTurned)) {
    const auto untold = command_of_first(open, OpenKind::NotTold, code);
    if (!untold.empty()) return deed(untold, deviation);
  }
  // Brought to its final value since, it wants a new stripe.
  if (is_of(deviation, audit::kStripeTooEarly) || is_of(deviation, audit::kStripeTurned)) {
    return {progress::stripe_command(*joint->joint, positions),
            "to settle: " + deviation.id + progress::reading_to_fill_in(*joint->joint)};
  }
  if (is_of(deviation, audit::kUnderTorqued)) {
    if (auto again = last_pass_again(code, positions, reassembly)) {
      return deed(*std::move(again), deviation);
    }
  }
  if (is_of(deviation, audit::kSecondPerson)) {
    return {"tighten " + address + " --check",
            "to settle: " + deviation.id + "; by somebody who had no hand in it"};
  }
  if (is_of(deviation, audit::kRecheckOverdue)) {
    return {progress::look_command(*joint->joint, positions),
            "to settle: " + deviation.id + "; where one has turned, turned 15° instead of aligned" +
                progress::reading_to_fill_in(*joint->joint)};
  }
  if (is_of(deviation, audit::kItemCount)) {
    const auto item = command_of_first(open, OpenKind::ItemBeforeJoint, code);
    if (!item.empty()) return deed(item, deviation);
  }
  return decision_on(deviation, reassembly);
}

NextStep step_to_do(const progress::DecidedWork& work, const audit::Audit& audit,
                    const Reassembly& reassembly, const std::vector<progress::OpenPoint>& open) {
  const auto& decided = work.decision->content;
  const auto why = fmt::format("{}: {}", decided.deviation, progress::in_words(work));
  const auto where = address_of(decided.joint, work.open);
  // None is tightened anew before the new one that has to go in is there.
  std::vector<int> to_come;
  for (const auto& renewing : plan::renewal_list(reassembly.job, reassembly.survey)) {
    if (record::same_code(renewing.joint->joint->code, decided.joint) && renewing.is_certain() &&
        !renewing.has_arrived && std::ranges::binary_search(work.open, renewing.position)) {
      to_come.push_back(renewing.position);
    }
  }
  const bool is_tightened =
      decided.decision == record::Decision::ReTorque || decided.decision == record::Decision::Renew;
  if (is_tightened && !to_come.empty()) {
    return {fmt::format("renew {} --arrived", record::write_address(decided.joint, to_come)), why};
  }
  const auto* joint = finding::joint_in(reassembly.survey, decided.joint);
  if (is_tightened && joint != nullptr && has_open_step(reassembly, decided.joint, work.open)) {
    return tighten_on(*joint->joint, why, reassembly, open);
  }
  switch (decided.decision) {
    case record::Decision::ReTorque:
      return {last_pass_again(decided.joint, work.open, reassembly).value_or("bench " + where),
              why};
    case record::Decision::Renew:
      return {"out " + where, why};
    case record::Decision::UseAsIs:
    case record::Decision::Repair:
    case record::Decision::CorrectRecord:
      break;
  }
  // One that the audit names no more cannot be told as done.
  const auto* deviation = audit::deviation_in(audit, decided.deviation);
  if (deviation == nullptr) {
    return {fmt::format("strike {} --why TEXT", work.decision->stamp.line),
            why + "; the audit does not name that any more"};
  }
  if (decided.decision == record::Decision::CorrectRecord) {
    return correction_of(*deviation, *work.decision, why);
  }
  return {fmt::format("settle {} --done TEXT", typed(decided.deviation)),
          why + "; say what was done once it is"};
}

}  // namespace words
