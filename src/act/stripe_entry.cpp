#include "act/stripe_entry.h"

#include <fmt/format.h>

#include <algorithm>

#include "act/amendment.h"
#include "act/hold_point_entry.h"
#include "act/kept_words.h"
#include "act/look_entry.h"
#include "act/lookup.h"
#include "act/under_cover.h"
#include "failure/failure.h"
#include "progress/done_already.h"
#include "progress/finish_commands.h"
#include "progress/reassembly.h"
#include "progress/turned_stripe.h"
#include "record/address.h"
#include "words/line_text.h"

namespace act {
namespace {

// What is said of the stripes; what is not, as the line before had it.
record::FinalStripe stripe_from(const StripeWords& words, const record::FinalStripe* before) {
  KeptWords kept(words.correction);
  record::FinalStripe stripe;
  stripe.counter = counter_from(words.counter);
  stripe.teardown_mark_wiped = words.wiped;
  if (before != nullptr) {
    if (kept.keeps("counter", stripe.counter.has_value())) stripe.counter = before->counter;
    if (!words.wiped && !words.not_wiped) {
      stripe.teardown_mark_wiped = before->teardown_mark_wiped;
    }
    kept.check();
  }
  return stripe;
}

}  // namespace

Done draw_stripe(logbook::Logbook& logbook, const logbook::Writer& stated,
                 const StripeWords& words) {
  auto address = record::read_address(words.address);
  Amendment amendment(logbook, stated, words.correction);
  const auto& writer = amendment.writer();
  auto stripe = stripe_from(words, amendment.before<record::FinalStripe>());
  amendment.strike_replaced({"stripe"});
  const auto joint = joint_at_or_refuse(logbook, address.joint, address.positions);
  stripe.joint = joint.code;
  stripe.positions = std::move(address.positions);
  if (!words.counter.empty()) check_counter(joint, *stripe.counter);
  const progress::Reassembly now(logbook.job_of(joint.code), record::local_day(writer.done_at));
  if (const auto why = progress::why_no_stripe(now, stripe.joint, stripe.positions, writer.done_at);
      !why.empty()) {
    throw failure::Refusal(why);
  }
  auto remarks = check_hold_points(now.job, joint.code, writer.done_at, writer.now);
  for (auto& remark : remarks_under_cover(logbook, joint.code, writer.done_at)) {
    remarks.push_back(std::move(remark));
  }
  progress::DoneAlready before;
  progress::DoneAlready after;
  for (const int position : stripe.positions) {
    const auto* stands = now.progress.finish_of(joint.code, position).stripe;
    if (stands == nullptr) continue;
    (stands->stamp.done_at > writer.done_at ? after : before).add(stands->stamp, position);
  }
  for (const auto& where : before.in_words(joint.code)) {
    remarks.push_back(
        fmt::format("a final stripe stood at {}; this one stands from now on", where));
  }
  for (const auto& where : after.in_words(joint.code)) {
    remarks.push_back(
        fmt::format("a final stripe stands at {}; that one was drawn later, and counts", where));
  }
  Done done{{{amendment.append(stripe), words::line_text(stripe)}}, std::move(remarks)};
  amendment.commit();
  const auto* state = finding::joint_in(now.survey, stripe.joint);
  const bool is_marked = std::ranges::any_of(stripe.positions, [&](int position) {
    const auto* removal = state->at(position).removal;
    return removal == nullptr || removal->content.marked;
  });
  if (!stripe.teardown_mark_wiped && is_marked) {
    done.remarks.push_back(fmt::format(
        "two marks stand on these now, and the audit holds that open; wipe the teardown "
        "mark before it is taken for the final one, then record it: stripe {} --wiped",
        record::write_address(stripe.joint, stripe.positions)));
  }
  if (progress::lacks_reading(joint, stripe.counter)) {
    done.remarks.push_back(progress::reading_missing(joint, "stripe", stripe.positions,
                                                     done.lines.front().stamp.line));
  }
  amendment.tell_replaced(done);
  return done;
}

}  // namespace act
