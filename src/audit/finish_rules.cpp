#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "audit/flag.h"
#include "audit/rules.h"
#include "progress/second_check.h"
#include "record/address.h"

namespace audit {
namespace {

using finding::PositionState;
using progress::JointWork;

// Everything that came out of the joint or was tightened has its final value, and there is some.
bool is_finished(const Case& subject, const JointWork& work) {
  bool some = false;
  for (const auto& position : work.state->positions) {
    const bool was_worked_on =
        position.removal != nullptr || !work.done_at(position.position).empty();
    if (!was_worked_on) continue;
    if (!subject.work->progress().has_final_value(work.state->joint->code, position.position)) {
      return false;
    }
    some = true;
  }
  return some;
}

// The positions of a finished joint that were tightened and meet `lacks`.
template <class Lacks>
std::vector<int> lacking(const JointWork& work, Lacks&& lacks) {
  std::vector<int> positions;
  for (const auto& position : work.state->positions) {
    if (work.done_at(position.position).empty()) continue;
    if (lacks(position.position)) positions.push_back(position.position);
  }
  return positions;
}

void no_final_stripe(const Case& subject, std::vector<Deviation>& deviations) {
  if (subject.work == nullptr) return;
  for (const auto& work : subject.work->joints()) {
    if (!is_finished(subject, work)) continue;
    const auto& code = work.state->joint->code;
    const auto without = lacking(work, [&](int position) {
      return subject.work->progress().finish_of(code, position).drawn == nullptr;
    });
    if (without.empty()) continue;
    deviations.push_back(flag_joint(
        kNoFinalStripe, Level::Check, *work.state,
        fmt::format("every pass is done, but there is no final stripe at {}",
                    record::write_positions(without)),
        fmt::format("wipe the teardown mark, draw the stripe and record it: stripe {}/{}", code,
                    record::write_positions(without))));
  }
}

// Something of the passes was done after the stripe. A check round that is done once more turns
// nothing and leaves the stripe as good as it was.
bool is_worked_on_after(const record::Entry<record::FinalStripe>& stripe,
                        const std::vector<const progress::Tightened*>& done) {
  bool was_checked = false;
  for (const auto* entry : done) {  // in the order done
    if (!record::is_work(entry->content)) continue;
    const bool is_check = entry->content.target.kind == record::PassKind::Check;
    if (!record::is_earlier(stripe.stamp, entry->stamp)) {
      was_checked = is_check;
    } else if (!is_check || !was_checked) {
      return true;
    }
  }
  return false;
}

void stripe_too_early(const Case& subject, std::vector<Deviation>& deviations) {
  if (subject.work == nullptr) return;
  for (const auto& work : subject.work->joints()) {
    const auto& code = work.state->joint->code;
    std::vector<int> early;
    std::vector<int> worked_on;
    for (const auto& position : work.state->positions) {
      const auto finish = subject.work->progress().finish_of(code, position.position);
      const auto* stripe = finish.drawn;
      // One that turned is told by the rule of its own.
      if (stripe == nullptr || finish.turned != nullptr) continue;
      const auto& done = work.done_at(position.position);
      if (!subject.work->progress().has_final_value(code, position.position)) {
        early.push_back(position.position);
      } else if (is_worked_on_after(*stripe, done)) {
        worked_on.push_back(position.position);
      }
    }
    if (!worked_on.empty()) {
      deviations.push_back(flag_part(
          kStripeTooEarly, Level::Check, *work.state, "worked-on",
          fmt::format("{} was tightened after the final stripe had been drawn",
                      record::write_positions(worked_on)),
          fmt::format("wipe the stripe and draw it anew, so that it stands for the final value: "
                      "stripe {}/{}",
                      code, record::write_positions(worked_on))));
    }
    if (early.empty()) continue;
    deviations.push_back(flag_joint(
        kStripeTooEarly, Level::Check, *work.state,
        fmt::format("the final stripe at {} was drawn before the final value was reached",
                    record::write_positions(early)),
        "finish the passes, wipe the stripe and draw it anew: it must stand for the final value"));
  }
}

void second_person(const Case& subject, std::vector<Deviation>& deviations) {
  if (subject.work == nullptr) return;
  for (const auto& work : subject.work->joints()) {
    const auto& code = work.state->joint->code;
    const auto& progress = subject.work->progress();
    const auto same = lacking(work, [&](int position) {
      const auto* check = progress.finish_of(code, position).second_check;
      return check != nullptr &&
             progress::is_same_person(progress, code, position, check->stamp.by);
    });
    if (!same.empty()) {
      deviations.push_back(flag_part(
          kSecondPerson, Level::Hold, *work.state, "same",
          fmt::format("{} was checked by a person who tightened it", record::write_positions(same)),
          "have it checked by somebody who had no hand in it"));
    }
    if (!work.state->joint->critical || !is_finished(subject, work)) continue;
    const auto unchecked = lacking(work, [&](int position) {
      return progress.finish_of(code, position).second_check == nullptr;
    });
    if (unchecked.empty()) continue;
    deviations.push_back(
        flag_part(kSecondPerson, Level::Check, *work.state, "none",
                  fmt::format("a critical joint, finished, and no second person has checked {}",
                              record::write_positions(unchecked)),
                  "have it checked by somebody who had no hand in it"));
  }
}

}  // namespace

constinit const Rule kNoFinalStripe{"no final stripe",
                                    "joints with every pass done and a stripe missing",
                                    no_final_stripe, RestsOn{.tightenings = true}};
constinit const Rule kStripeTooEarly{"stripe too early",
                                     "final stripes drawn before the final value was reached",
                                     stripe_too_early, RestsOn{.tightenings = true}};
constinit const Rule kSecondPerson{
    "second person", "checks by the person who tightened it; critical joints without a check",
    second_person, RestsOn{.tightenings = true}};

}  // namespace audit
