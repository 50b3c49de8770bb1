#include "words/next_step.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

#include "audit/rules.h"
#include "finding/not_to_be_tested.h"
#include "progress/cover_times.h"
#include "progress/hold_point_state.h"
#include "record/address.h"
#include "words/settling_step.h"
#include "words/taking_apart.h"
#include "words/wrench_wanted.h"

namespace words {
namespace {

using progress::OpenKind;
using progress::OpenPoint;

// The joint that comes off before this one: what covers it, else what goes on after it, as far as
// something of that is in; nothing where none does.
const finding::JointState* off_before(const progress::Reassembly& reassembly,
                                      const TakingApart& apart, std::string_view code) {
  const auto covers = progress::covers_to_open(reassembly.job, reassembly.survey, code);
  if (!covers.empty()) return covers.front();
  for (const auto& state : reassembly.survey.joints) {
    const auto& joint = *state.joint;
    const bool goes_on_after = std::ranges::any_of(
        joint.after, [&](const std::string& first) { return record::same_code(first, code); });
    if (goes_on_after && !apart.still_in(state).empty()) return &state;
  }
  return nullptr;
}

// The joint that comes off before this one, and before those that come off before it; itself where
// none does, or they wait for each other in a circle.
const finding::JointState& topmost(const progress::Reassembly& reassembly, const TakingApart& apart,
                                   const finding::JointState& joint) {
  const auto* top = &joint;
  for (std::size_t i = 0; i < reassembly.survey.joints.size(); ++i) {
    const auto* before = off_before(reassembly, apart, top->joint->code);
    if (before == nullptr) return *top;
    top = before;
  }
  return joint;
}

// The first joint of which something has not come out, while nothing goes back yet; what covers it
// or goes on after it comes off before it.
std::optional<NextStep> to_take_out(const progress::Reassembly& reassembly) {
  const TakingApart apart(reassembly);
  if (!apart.goes_on()) return std::nullopt;
  for (const auto& first : reassembly.survey.joints) {
    if (apart.still_in(first).empty()) continue;
    const auto& top = topmost(reassembly, apart, first);
    const auto& joint = apart.still_in(top).empty() ? first : top;
    const auto in = apart.still_in(joint);
    const auto& code = joint.joint->code;
    const auto where = record::write_address(code, in);
    const bool is_tested = finding::not_to_be_tested(joint, in.front()).empty();
    const bool is_covered =
        !progress::covers_to_open(reassembly.job, reassembly.survey, first.joint->code).empty();
    return NextStep{is_tested ? "bench " + code : fmt::format("out {} --bag BAG", where),
                    &joint == &first
                        ? fmt::format("{} not out yet", where)
                        : fmt::format("{} not out yet; {}{} comes out after it", where,
                                      first.joint->code, is_covered ? " lies under it and" : "")};
  }
  return std::nullopt;
}

// The first of this kind that something can be typed for.
const OpenPoint* first_of(const std::vector<OpenPoint>& open, auto&& is_meant) {
  const OpenPoint* first = nullptr;
  for (const auto& point : open) {
    if (point.command.empty() || !is_meant(point.kind)) continue;
    if (first == nullptr || point.kind < first->kind) first = &point;
  }
  return first;
}

// A deed at the fasteners of a joint.
struct AtJoint {
  std::string verb;
  std::string joint;
};

// Of a command; nothing where it touches none: what corrects a line touches paper alone.
std::optional<AtJoint> touched_by(const std::string& command) {
  constexpr std::array kVerbs = {"out", "bench", "found", "tighten", "stripe", "recheck"};
  const auto blank = command.find(' ');
  if (blank == std::string::npos || command.find(" --replace ") != std::string::npos) return {};
  auto verb = command.substr(0, blank);
  if (std::ranges::find(kVerbs, verb) == kVerbs.end()) return {};
  const auto address = command.substr(blank + 1, command.find(' ', blank + 1) - blank - 1);
  return AtJoint{std::move(verb), record::read_address(address).joint};
}

// What covers the joint comes off before its fasteners are touched or looked at.
NextStep once_uncovered(NextStep step, const progress::Reassembly& reassembly,
                        const std::string& joint, record::Moment now) {
  const progress::CoverTimes covers(reassembly.job, reassembly.survey,
                                    plan::Decided(reassembly.job, reassembly.survey));
  const auto on = covers.over(joint, now);
  if (on.empty()) return step;
  return {covers.command_to_open(joint, now),
          fmt::format("{}; {}, which covers {}, is on", step.why, on.front().cover->joint->code,
                      joint)};
}

// The step, or what has to be done before it can be: it would be refused.
NextStep within_reach(NextStep step, const progress::Reassembly& reassembly, record::Moment now) {
  auto touched = touched_by(step.command);
  if (!touched) return step;
  step = once_uncovered(std::move(step), reassembly, touched->joint, now);
  touched = touched_by(step.command);
  // A look touches nothing.
  if (!touched || touched->verb == "recheck") return step;
  const auto shut = progress::in_the_way(reassembly.job, touched->joint, now);
  if (shut.empty()) return step;
  return {
      progress::command_to_open(shut.front()),
      fmt::format("{}; before {}: {}", step.why, touched->joint, progress::in_words(shut.front()))};
}

// The last line that tightened something; nothing where none did.
const record::Entry<record::Tightening>* last_tightening(const record::Job& job) {
  const record::Entry<record::Tightening>* last = nullptr;
  for (const auto& entry : job.tightenings) {
    if (!record::is_work(entry.content)) continue;
    if (last == nullptr || record::is_later(entry.stamp, last->stamp)) last = &entry;
  }
  return last;
}

// Nothing came out after this line.
bool is_after_all_out(const record::Stamp& line, const record::Job& job) {
  return std::ranges::none_of(
      job.removals, [&](const auto& entry) { return record::is_later(entry.stamp, line); });
}

// The joint that was worked on last, while it has passes open and nothing is to be settled there:
// what stands half tightened is gone on with before what waits in another joint.
std::optional<NextStep> to_go_on_with(const progress::Reassembly& reassembly,
                                      const std::vector<OpenPoint>& open,
                                      const audit::Audit& audit) {
  const auto* last = last_tightening(reassembly.job);
  if (last == nullptr) return std::nullopt;
  const auto is_here = [&](std::string_view joint) {
    return record::same_code(joint, last->content.joint);
  };
  const bool is_held =
      std::ranges::any_of(audit::in_the_way(audit),
                          [&](const auto* deviation) { return is_here(deviation->joint); }) ||
      std::ranges::any_of(audit.to_do, [&](const auto& work) {
        // Tightening it again is what its passes do.
        const auto& decided = work.decision->content;
        return decided.decision != record::Decision::ReTorque && is_here(decided.joint);
      });
  if (is_held) return std::nullopt;
  const auto pass = std::ranges::find_if(open, [&](const OpenPoint& point) {
    return point.kind == OpenKind::Pass && !point.command.empty() && is_here(point.joint);
  });
  return pass == open.end() ? std::nullopt : std::optional(NextStep{pass->command, pass->says});
}

NextStep first_step(const progress::Reassembly& reassembly, const std::vector<OpenPoint>& open,
                    const audit::Audit& audit, record::Moment now, const plan::PlanCycle* circle) {
  if (reassembly.survey.joints.empty()) return {"joint --help", "no joint is entered yet"};
  const auto* before_all = first_of(open, [](OpenKind kind) {
    return kind == OpenKind::HoldPoint || kind == OpenKind::TestUnderWay;
  });
  if (before_all != nullptr) return {before_all->command, before_all->says};
  if (circle != nullptr) return {circle->mend(), circle->circle()};
  auto in_hand = to_go_on_with(reassembly, open, audit);
  auto out = to_take_out(reassembly);
  if (out) {
    const auto* last = last_tightening(reassembly.job);
    const bool is_at_it = in_hand && is_after_all_out(last->stamp, reassembly.job);
    return is_at_it ? *std::move(in_hand) : *std::move(out);
  }
  if (in_hand) return *std::move(in_hand);
  auto in_the_way = audit::in_the_way(audit);
  // What was drained is filled in when all is closed: until then the difference is no matter.
  const bool has_passes_open =
      first_of(open, [](OpenKind kind) { return kind == OpenKind::Pass; }) != nullptr;
  std::erase_if(in_the_way, [&](const auto* deviation) {
    return has_passes_open && deviation->rule == audit::kFluidBalance.name;
  });
  if (!in_the_way.empty()) return step_to_settle(*in_the_way.front(), reassembly, open);
  if (!audit.to_do.empty()) return step_to_do(audit.to_do.front(), audit, reassembly, open);
  const auto* next = first_of(open, [](OpenKind) { return true; });
  if (next != nullptr) return {next->command, next->says};
  if (!open.empty()) return {"", open.front().says};
  const auto looks = audit::looks_due(audit);
  if (!looks.empty()) {
    return once_uncovered({"recheck", "a look is due again: " + looks.front()->id}, reassembly,
                          looks.front()->joint, now);
  }
  return {};
}

}  // namespace

NextStep next_step(const progress::Reassembly& reassembly, const std::vector<OpenPoint>& open,
                   const audit::Audit& audit, record::Moment now, const plan::PlanCycle* circle) {
  auto step = within_reach(first_step(reassembly, open, audit, now, circle), reassembly, now);
  step.wrench = wrench_for(step.command, reassembly, record::local_day(now));
  if (const auto touched = touched_by(step.command)) step.joint = touched->joint;
  return step;
}

}  // namespace words
