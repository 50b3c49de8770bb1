#include "words/joint_in_short.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <string_view>
#include <utility>

#include "finding/not_to_be_tested.h"
#include "record/address.h"
#include "words/pass_text.h"
#include "words/wrench_wanted.h"

namespace words {
namespace {

using progress::OpenKind;
using progress::OpenPoint;

std::string where_it_is(const finding::PositionState& position, bool is_back) {
  if (position.removal == nullptr || is_back) return "in";
  const auto& out = position.removal->content;
  if (out.broke == record::BreakLoose::Empty) return "empty";
  return out.bag.empty() ? "out" : out.bag;
}

// What is done at a joint apart from its passes; empty for what is not done at its fasteners.
std::string_view word_for(OpenKind kind) {
  switch (kind) {
    case OpenKind::TestUnderWay:
      return "go on with the test";
    case OpenKind::OldIn:
    case OpenKind::Spent:
      return "take out again";
    case OpenKind::NotTold:
      return "tell what was seen";
    case OpenKind::SecondPerson:
      return "second person";
    case OpenKind::Stripe:
      return "final stripe";
    case OpenKind::CounterReading:
      return "counter reading";
    case OpenKind::HoldPoint:
    case OpenKind::NewFastener:
    case OpenKind::ItemBeforeJoint:
    case OpenKind::StripeTurned:
    case OpenKind::Pass:
    case OpenKind::Item:
    case OpenKind::Fluid:
      break;
  }
  return {};
}

// "found-low" of "found-low:J08/05".
std::string_view name_of(std::string_view id) { return id.substr(0, id.find(':')); }

// "5 found-low": the number first, which is read even where the line is cut.
std::string at_positions(const std::vector<int>& positions, std::string_view what) {
  return positions.empty() ? std::string(what)
                           : fmt::format("{} {}", record::write_positions(positions), what);
}

std::string no_wrench(const record::Job& job) {
  return job.wrenches.empty() ? "no wrench entered (wrench --help)" : "no wrench fits";
}

std::string wrench_in_short(const progress::Step& step, const record::Job& job) {
  const auto& planned = step.planned();
  if (planned.pass.aim && !planned.setting) return no_wrench(job);
  const auto setting = setting_text(planned);
  return setting.empty() ? target_text(planned, step.joint->state->unit) : setting;
}

}  // namespace

std::string where_they_are(const finding::JointState& joint, const std::vector<int>& positions,
                           const TakingApart& apart) {
  std::vector<std::pair<std::string, std::vector<int>>> places;
  for (const int position : positions) {
    auto place = where_it_is(joint.at(position), apart.is_back(joint, position));
    auto same = std::ranges::find(places, place, &decltype(places)::value_type::first);
    if (same == places.end()) same = places.emplace(same, std::move(place), std::vector<int>{});
    same->second.push_back(position);
  }
  if (places.empty()) return "-";
  if (places.size() == 1) return places.front().first;
  std::vector<std::string> told;
  told.reserve(places.size());
  for (const auto& [place, at] : places) {
    told.push_back(fmt::format("{} {}", record::write_positions(at), place));
  }
  return fmt::format("{}", fmt::join(told, ", "));
}

std::string in_words(const JointInShort& joint) {
  return fmt::format("where {}; next {}{}", joint.where, joint.next,
                     joint.see_to.empty() ? "" : "; see to " + joint.see_to);
}

JointsInShort::JointsInShort(const progress::Reassembly& reassembly,
                             const std::vector<OpenPoint>& open, const audit::Audit& audit,
                             record::Day day)
    : reassembly_(reassembly), day_(day), apart_(reassembly), goes_on_(apart_.goes_on()) {
  for (const auto& point : open) open_of_[record::folded_code(point.joint)].push_back(&point);
  for (const auto* deviation : audit::in_the_way(audit)) {
    if (audit::is_contradiction(*deviation))
      disputed_.insert(record::folded_code(deviation->joint));
    see_to_of_[record::folded_code(deviation->joint)].push_back(
        at_positions(audit::open_positions(*deviation), name_of(deviation->id)));
  }
  for (const auto& work : audit.to_do) {
    const auto& decided = work.decision->content;
    see_to_of_[record::folded_code(decided.joint)].push_back(
        at_positions(work.open, record::word_of(decided.decision)));
  }
}

JointInShort JointsInShort::of(const finding::JointState& joint) const {
  std::vector<int> all;
  for (const auto& position : joint.positions) all.push_back(position.position);
  return {where_they_are(joint, all, apart_), next_of(joint), see_to(joint)};
}

std::string JointsInShort::next_of(const finding::JointState& joint) const {
  if (const auto in = apart_.still_in(joint); !in.empty()) {
    const auto tested = std::ranges::find_if(
        in, [&](int position) { return finding::not_to_be_tested(joint, position).empty(); });
    if (tested == in.end()) return "take out, no test";
    const auto fit = wrenches_for_test(reassembly_.job, joint, *tested, day_);
    return fit.empty() ? "test: " + no_wrench(reassembly_.job)
                       : fmt::format("test: {}", fmt::join(fit, " or "));
  }
  const auto& code = joint.joint->code;
  const OpenPoint* first = nullptr;
  const auto open = open_of_.find(record::folded_code(code));
  if (open != open_of_.end()) {
    for (const auto* point : open->second) {
      if (point->kind != OpenKind::Pass && word_for(point->kind).empty()) continue;
      if (first == nullptr || point->kind < first->kind) first = point;
    }
  }
  if (first == nullptr) return disputed_.contains(record::folded_code(code)) ? "settle" : "done";
  if (first->kind != OpenKind::Pass) return std::string(word_for(first->kind));
  // A pass comes when the rest is out.
  const auto* step = goes_on_ ? nullptr : reassembly_.progress.next(code);
  return step == nullptr ? "-" : wrench_in_short(*step, reassembly_.job);
}

std::string JointsInShort::see_to(const finding::JointState& joint) const {
  const auto told = see_to_of_.find(record::folded_code(joint.joint->code));
  return told == see_to_of_.end() ? std::string()
                                  : fmt::format("{}", fmt::join(told->second, ", "));
}

}  // namespace words
