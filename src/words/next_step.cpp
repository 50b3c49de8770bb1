#include "words/next_step.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "finding/not_to_be_tested.h"
#include "progress/cover_times.h"
#include "record/address.h"
#include "words/settling_step.h"

namespace words {
namespace {

using progress::OpenKind;
using progress::OpenPoint;

std::vector<int> still_in(const finding::JointState& joint) {
  std::vector<int> in;
  for (const auto& position : joint.positions) {
    if (position.removal == nullptr) in.push_back(position.position);
  }
  return in;
}

// The joint that comes off before this one, and before those over it; itself where nothing is over
// it, or they cover each other in a circle.
const finding::JointState& topmost(const progress::Reassembly& reassembly,
                                   const finding::JointState& joint) {
  const auto* top = &joint;
  for (std::size_t i = 0; i < reassembly.survey.joints.size(); ++i) {
    const auto covers =
        progress::covers_to_open(reassembly.job, reassembly.survey, top->joint->code);
    if (covers.empty()) return *top;
    top = covers.front();
  }
  return joint;
}

// The first joint of which something has not come out, while nothing has been put back anywhere;
// what covers it comes off before it.
std::optional<NextStep> to_take_out(const progress::Reassembly& reassembly) {
  if (!reassembly.job.tightenings.empty()) return std::nullopt;
  for (const auto& first : reassembly.survey.joints) {
    if (still_in(first).empty()) continue;
    const auto& joint = topmost(reassembly, first);
    const auto in = still_in(joint);
    const auto& code = joint.joint->code;
    const auto where = record::write_address(code, in);
    const bool is_tested = finding::not_to_be_tested(joint, in.front()).empty();
    return NextStep{is_tested ? "bench " + code : fmt::format("out {} --bag BAG", where),
                    &joint == &first
                        ? fmt::format("{} not out yet", where)
                        : fmt::format("{} not out yet; {} lies under it and comes out after it",
                                      where, first.joint->code)};
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

}  // namespace

NextStep next_step(const progress::Reassembly& reassembly, const std::vector<OpenPoint>& open,
                   const audit::Audit& audit, const plan::PlanCycle* circle) {
  if (reassembly.survey.joints.empty()) return {"joint --help", "no joint is entered yet"};
  const auto* before_all = first_of(open, [](OpenKind kind) {
    return kind == OpenKind::HoldPoint || kind == OpenKind::TestUnderWay;
  });
  if (before_all != nullptr) return {before_all->command, before_all->says};
  if (circle != nullptr) return {circle->mend(), circle->circle()};
  if (auto out = to_take_out(reassembly)) return *std::move(out);
  const auto in_the_way = audit::in_the_way(audit);
  if (!in_the_way.empty()) return step_to_settle(*in_the_way.front(), reassembly, open);
  if (!audit.to_do.empty()) return step_to_do(audit.to_do.front(), audit, reassembly, open);
  const auto* next = first_of(open, [](OpenKind) { return true; });
  if (next != nullptr) return {next->command, next->says};
  if (!open.empty()) return {"", open.front().says};
  const auto looks = audit::looks_due(audit);
  if (!looks.empty()) return {"recheck", "a look is due again: " + looks.front()->id};
  return {};
}

}  // namespace words
