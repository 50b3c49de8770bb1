#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <vector>

#include "audit/flag.h"
#include "audit/rules.h"
#include "progress/finish_commands.h"
#include "progress/second_check.h"
#include "record/address.h"

namespace audit {
namespace {

// Everything that came out of the joint or was tightened has its final value with no pass open
// before it, and there is some.
bool is_finished(const JointCase& at) {
  bool some = false;
  for (const auto& position : at.joint.positions) {
    const bool was_worked_on =
        position.removal != nullptr || !at.work->done_at(position.position).empty();
    if (!was_worked_on || is_left_alone(at, position.position)) continue;
    const auto& code = at.joint.joint->code;
    if (!at.progress().has_final_value(code, position.position)) return false;
    const auto steps = at.progress().steps_of(code, position.position);
    if (std::ranges::find(steps, progress::Step::Stands::Open, &progress::Step::stands) !=
        steps.end()) {
      return false;
    }
    some = true;
  }
  return some;
}

// The positions of a joint that were tightened and meet `lacks`.
template <class Lacks>
std::vector<int> lacking(const JointCase& at, Lacks&& lacks) {
  std::vector<int> positions;
  for (const auto& position : at.joint.positions) {
    if (at.work->done_at(position.position).empty()) continue;
    if (lacks(position.position)) positions.push_back(position.position);
  }
  return positions;
}

Deviation about(std::vector<int> positions, Deviation deviation) {
  deviation.positions = std::move(positions);
  return deviation;
}

Deviation keeping_unfinished(Deviation deviation) {
  deviation.keeps_unfinished = true;
  return deviation;
}

void no_final_stripe(const JointCase& at, Deviations& deviations) {
  if (at.work == nullptr || !is_finished(at)) return;
  const auto& code = at.joint.joint->code;
  const auto without = lacking(
      at, [&](int position) { return at.progress().finish_of(code, position).drawn == nullptr; });
  if (without.empty()) return;
  deviations.push_back(about(
      without,
      flag_joint(
          kNoFinalStripe, Level::Check, at.joint,
          says("every pass is done, but there is no final stripe at {}", as::numbers(without)),
          fmt::format("{}wipe the teardown mark, draw the stripe and record it: {}{}",
                      once_it_is_reached(at), progress::stripe_command(*at.joint.joint, without),
                      progress::reading_to_fill_in(*at.joint.joint)))));
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

// The line that sent it back after this stripe had been drawn over its final value; nothing where
// there was none to draw it over.
const record::Stamp* undone_by(const progress::Finish& finish, const record::Stamp& stripe) {
  const auto found = std::ranges::find_if(finish.held, [&](const progress::Held& held) {
    return held.until != nullptr && record::is_earlier(*held.since, stripe) &&
           record::is_earlier(stripe, *held.until);
  });
  return found == finish.held.end() ? nullptr : found->until;
}

void stripe_too_early(const JointCase& at, Deviations& deviations) {
  if (at.work == nullptr) return;
  const auto& code = at.joint.joint->code;
  std::vector<int> early;
  std::vector<int> undone_at;
  const record::Stamp* undone_in = nullptr;  // of the last of them
  std::vector<int> worked_on;
  for (const auto& position : at.joint.positions) {
    const auto finish = at.progress().finish_of(code, position.position);
    const auto* stripe = finish.drawn;
    // One that turned is told by the rule of its own, and so is one that was tested after it.
    if (stripe == nullptr || finish.turned != nullptr) continue;
    if (finish.tested != nullptr && record::is_earlier(stripe->stamp, *finish.tested)) continue;
    if (!at.progress().has_final_value(code, position.position)) {
      const auto* undone = undone_by(finish, stripe->stamp);
      if (undone == nullptr) {
        early.push_back(position.position);
      } else {
        undone_at.push_back(position.position);
        undone_in = undone;
      }
    } else if (is_worked_on_after(*stripe, at.work->done_at(position.position))) {
      worked_on.push_back(position.position);
    }
  }
  if (!worked_on.empty()) {
    deviations.push_back(keeping_unfinished(about(
        worked_on,
        flag_part(
            kStripeTooEarly, Level::Check, at.joint, "worked-on",
            says("{} was tightened after the final stripe had been drawn", as::numbers(worked_on)),
            fmt::format("{}wipe the stripe and draw it anew, so that it stands for the final "
                        "value: {}{}",
                        once_it_is_reached(at),
                        progress::stripe_command(*at.joint.joint, worked_on),
                        progress::reading_to_fill_in(*at.joint.joint))))));
  }
  if (!undone_at.empty()) {
    deviations.push_back(keeping_unfinished(about(
        undone_at,
        flag_part(kStripeTooEarly, Level::Check, at.joint, "sent-back",
                  says("the final stripe at {} stands for a final value that is to be reached anew "
                       "since line {}",
                       as::numbers(undone_at), as::line(*undone_in)),
                  fmt::format("go through the open passes (tighten {}), wipe the stripe and draw "
                              "it anew: {}{}",
                              code, progress::stripe_command(*at.joint.joint, undone_at),
                              progress::reading_to_fill_in(*at.joint.joint))))));
  }
  if (early.empty()) return;
  deviations.push_back(keeping_unfinished(about(
      early, flag_joint(kStripeTooEarly, Level::Check, at.joint,
                        says("the final stripe at {} was drawn before the final value was reached",
                             as::numbers(early)),
                        "finish the passes, wipe the stripe and draw it anew: it must stand for "
                        "the final value"))));
}

// Nobody can tell later which of the two lines says that it has turned.
void two_marks(const JointCase& at, Deviations& deviations) {
  if (at.work == nullptr) return;
  const auto& code = at.joint.joint->code;
  std::vector<int> both;
  for (const auto& position : at.joint.positions) {
    const auto* stripe = at.progress().finish_of(code, position.position).stripe;
    if (stripe == nullptr || stripe->content.teardown_mark_wiped) continue;
    const bool was_marked =
        position.removal == nullptr || position.removal->content.marked ||
        std::ranges::any_of(position.outs, [](const auto* out) { return out->content.marked; });
    if (was_marked) both.push_back(position.position);
  }
  if (both.empty()) return;
  deviations.push_back(keeping_unfinished(about(
      both,
      flag_joint(kTwoMarks, Level::Check, at.joint,
                 says("the teardown mark was not wiped off beside the final stripe at {}",
                      as::numbers(both)),
                 fmt::format("wipe the teardown mark, look that the stripe that stays is the final "
                             "one, and record it: {}{}",
                             progress::stripe_command(*at.joint.joint, both),
                             progress::reading_to_fill_in(*at.joint.joint))))));
}

void second_person(const JointCase& at, Deviations& deviations) {
  if (at.work == nullptr) return;
  const auto& code = at.joint.joint->code;
  const auto& progress = at.progress();
  const auto same = lacking(at, [&](int position) {
    const auto* check = progress.finish_of(code, position).second_check;
    return check != nullptr && progress::is_same_person(progress, code, position, check->stamp.by);
  });
  if (!same.empty()) {
    deviations.push_back(about(
        same, flag_part(kSecondPerson, Level::Hold, at.joint, "same",
                        says("{} was checked by a person who tightened it", as::numbers(same)),
                        "have it checked by somebody who had no hand in it")));
  }
  if (!at.joint.joint->critical || !is_finished(at)) return;
  const auto unchecked = lacking(
      at, [&](int position) { return progress.finish_of(code, position).second_check == nullptr; });
  if (unchecked.empty()) return;
  deviations.push_back(about(
      unchecked,
      flag_part(kSecondPerson, Level::Check, at.joint, "none",
                says("a critical joint, finished, and no second person has checked {}",
                     as::numbers(unchecked)),
                once_it_is_reached(at) + "have it checked by somebody who had no hand in it")));
}

}  // namespace

constinit const Rule kNoFinalStripe{"no final stripe",
                                    "joints with every pass done and a stripe missing",
                                    no_final_stripe, kRestsOn<record::Tightening>};
constinit const Rule kStripeTooEarly{"stripe too early",
                                     "final stripes drawn before the final value was reached",
                                     stripe_too_early, kRestsOn<record::Tightening>};
constinit const Rule kTwoMarks{"two marks",
                               "final stripes beside a teardown mark that was not wiped off",
                               two_marks, kRestsOn<record::FinalStripe>};
constinit const Rule kSecondPerson{
    "second person", "checks by the person who tightened it; critical joints without a check",
    second_person, kRestsOn<record::Tightening>};

}  // namespace audit
