#include "words/next_step.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "audit/rules.h"
#include "finding/not_to_be_tested.h"
#include "record/address.h"

namespace words {
namespace {

using progress::OpenKind;
using progress::OpenPoint;

// The first joint of which something has not come out, while nothing has been put back anywhere.
std::optional<NextStep> to_take_out(const progress::Reassembly& reassembly) {
  if (!reassembly.job.tightenings.empty()) return std::nullopt;
  for (const auto& joint : reassembly.survey.joints) {
    std::vector<int> in;
    for (const auto& position : joint.positions) {
      if (position.removal == nullptr) in.push_back(position.position);
    }
    if (in.empty()) continue;
    const auto& code = joint.joint->code;
    const auto where = record::write_address(code, in);
    const bool is_tested = finding::not_to_be_tested(joint, in.front()).empty();
    return NextStep{is_tested ? "bench " + code : fmt::format("out {} --bag BAG", where),
                    fmt::format("{} not out yet", where)};
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
                   const audit::Audit& audit) {
  if (reassembly.survey.joints.empty()) return {"joint --help", "no joint is entered yet"};
  const auto* before_all = first_of(open, [](OpenKind kind) {
    return kind == OpenKind::HoldPoint || kind == OpenKind::TestUnderWay;
  });
  if (before_all != nullptr) return {before_all->command, before_all->says};
  if (auto out = to_take_out(reassembly)) return *std::move(out);
  const auto in_the_way = audit::in_the_way(audit);
  if (!in_the_way.empty()) {
    const auto& first = *in_the_way.front();
    const bool is_look = first.rule == audit::kRecheckOverdue.name;
    return {is_look ? "recheck" : "audit", "to settle: " + first.id};
  }
  if (!audit.to_do.empty()) {
    const auto& work = audit.to_do.front();
    return {"audit",
            fmt::format("{}: {}", work.decision->content.deviation, progress::in_words(work))};
  }
  const auto* next = first_of(open, [](OpenKind) { return true; });
  if (next != nullptr) return {next->command, next->says};
  if (!open.empty()) return {"", open.front().says};
  const auto looks = audit::looks_due(audit);
  if (!looks.empty()) return {"recheck", "a look is due again: " + looks.front()->id};
  return {};
}

}  // namespace words
