#include "act/look_entry.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "act/amendment.h"
#include "act/at_page.h"
#include "act/kept_words.h"
#include "act/lookup.h"
#include "act/under_cover.h"
#include "failure/failure.h"
#include "progress/due_rechecks.h"
#include "progress/final_value.h"
#include "progress/finish_commands.h"
#include "quantity/angle_text.h"
#include "quantity/ascii.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "words/line_text.h"

namespace act {
namespace {

// A stripe shows where the head stands, not how often it went round: to either side it is off by
// half a turn at most.
constexpr double kMostToBeSeen = 180.0;

// How the stripe stood: nothing for aligned, else the turn. InputError otherwise.
std::optional<quantity::Angle> turn_from(const std::vector<std::string>& words, bool really) {
  constexpr std::string_view kTurned = "turned";
  const auto text = fmt::format("{}", fmt::join(words, " "));
  if (quantity::same_in_any_case(text, "aligned")) return std::nullopt;
  if (!quantity::starts_with_in_any_case(text, kTurned)) {
    throw failure::InputError(fmt::format(
        "{}: expected how the stripe stands: aligned, or turned and by how much, such as "
        "\"turned 15°\"",
        quantity::quoted(text)));
  }
  const auto how_far = quantity::trimmed(std::string_view(text).substr(kTurned.size()));
  if (how_far.empty()) {
    throw failure::InputError(
        "how far the stripe has turned is missing; write it behind turned, such as \"turned 15°\"");
  }
  const auto turn = quantity::read_turn(how_far);
  if (turn <= quantity::Angle::degrees(0.0)) {
    throw failure::InputError(
        fmt::format("{}: a stripe that has not turned is aligned", quantity::quoted(text)));
  }
  if (turn > quantity::Angle::degrees(kMostToBeSeen) && !really) {
    const auto why = fmt::format(
        "{}: a stripe stands off by half a turn ({}) at most, seen from either side; "
        "give that",
        quantity::quoted(text), quantity::write_exact(quantity::Angle::degrees(kMostToBeSeen)));
    throw AtPage<failure::InputError>(
        why + ", or add --really where it was seen to have come so far", why);
  }
  return turn;
}

std::string stripe_records_it(const record::Joint& joint, const std::vector<int>& positions) {
  const auto reading = progress::reading_to_fill_in(joint);
  const auto command = "boltwitness " + progress::stripe_command(joint, positions);
  return reading.empty() ? fmt::format("\"{}\" records it", command)
                         : fmt::format("record it: {}{}", command, reading);
}

void refuse_without_stripe(const progress::Reassembly& now, const record::Recheck& recheck,
                           record::Moment done_at) {
  std::vector<int> bare;
  const record::Entry<record::FinalStripe>* later = nullptr;
  for (const int position : recheck.positions) {
    if (progress::stripe_at(now.job, recheck.joint, position, done_at) != nullptr) continue;
    const auto* drawn = now.progress.finish_of(recheck.joint, position).drawn;
    if (drawn != nullptr && later == nullptr) bare.clear();
    if (drawn != nullptr) later = drawn;
    if ((drawn == nullptr) == (later == nullptr)) bare.push_back(position);
  }
  if (bare.empty()) return;
  if (const auto alone = progress::why_left_alone(now, recheck.joint, recheck.positions);
      !alone.empty()) {
    throw failure::Refusal(alone);
  }
  const auto where = record::write_address(recheck.joint, bare);
  if (later != nullptr) {
    const auto why = fmt::format(
        "{} had no final stripe on {} that could be looked at; its stripe was drawn on {} (line "
        "{})",
        where, record::write_local(done_at), record::write_local(later->stamp.done_at),
        later->stamp.line);
    throw AtPage<failure::Refusal>(why + ". Give the time of the look with --at",
                                   why + ". Leave this one out and look again");
  }
  const auto why_none = progress::why_no_stripe(now, recheck.joint, bare, done_at);
  throw failure::Refusal(fmt::format(
      "{} no final stripe to look at; {}", where + (bare.size() == 1 ? " has" : " have"),
      why_none.empty()
          ? stripe_records_it(*finding::joint_in(now.survey, recheck.joint)->joint, bare)
          : why_none));
}

// A stripe that has turned is not aligned again until it is a new one.
void refuse_aligned_after_turn(const progress::Reassembly& now, const record::Recheck& recheck,
                               record::Moment done_at) {
  if (recheck.turned) return;
  for (const int position : recheck.positions) {
    const auto* look = now.progress.finish_of(recheck.joint, position).turned;
    if (look == nullptr || look->stamp.done_at > done_at) continue;
    const auto where = record::write_address(recheck.joint, position);
    throw failure::Refusal(fmt::format(
        "{} was found turned {} on {}; {}: \"boltwitness tighten {}\" leads through it", where,
        quantity::write_exact(*look->content.turned), record::write_local(look->stamp.done_at),
        progress::kAfterATurn, recheck.joint));
  }
}

// What is said of the look; what is not, as the line before had it.
record::Recheck look_from(const LookWords& words, const record::Recheck* before) {
  KeptWords kept(words.correction);
  record::Recheck recheck;
  recheck.counter = counter_from(words.counter);
  if (before != nullptr && kept.keeps("counter", recheck.counter.has_value())) {
    recheck.counter = before->counter;
  }
  if (before != nullptr) kept.check();
  recheck.turned = before != nullptr && words.state.empty() ? before->turned
                                                            : turn_from(words.state, words.really);
  return recheck;
}

// A counter that shows less than at the stripe was mistyped, or was exchanged.
std::vector<std::string> remarks_on_counter(const progress::Reassembly& now,
                                            const record::Recheck& recheck,
                                            record::Moment done_at) {
  if (!recheck.counter) return {};
  for (const int position : recheck.positions) {
    const auto* drawn = progress::stripe_at(now.job, recheck.joint, position, done_at);
    const auto& before = drawn->content.counter;
    const auto here = before ? record::on_counter(*before, recheck.counter->counter) : std::nullopt;
    if (!here || here->amount <= recheck.counter->amount) continue;
    return {
        fmt::format("the counter showed {} at the stripe, which is more than {}; recorded as "
                    "given",
                    record::write_exact(*before), record::write_exact(*recheck.counter))};
  }
  return {};
}

// What was seen before a fastener came out asks for nothing once it is out.
std::vector<std::string> remarks_on_look(const progress::Reassembly& now,
                                         const record::Recheck& recheck, record::Moment done_at) {
  auto remarks = remarks_on_counter(now, recheck, done_at);
  for (const int position : recheck.positions) {
    const auto* came_out = now.progress.came_out(recheck.joint, position);
    if (!recheck.turned || came_out == nullptr || came_out->done_at <= done_at) continue;
    remarks.push_back(fmt::format("{} has come out since (line {}): this look asks for nothing now",
                                  record::write_address(recheck.joint, position), came_out->line));
  }
  return remarks;
}

}  // namespace

std::optional<record::RunningAmount> counter_from(const std::string& typed) {
  if (typed.empty()) return std::nullopt;
  return record::read_running_amount(typed);
}

void check_counter(const record::Joint& joint, const record::RunningAmount& reading) {
  const record::RunningAmount* asked = nullptr;
  for (const auto& interval : joint.rechecks) {
    const auto* amount = std::get_if<record::RunningAmount>(&interval.after);
    if (amount == nullptr) continue;
    if (record::on_counter(reading, amount->counter)) return;
    if (asked == nullptr) asked = amount;
  }
  if (asked == nullptr) return;
  const auto why = fmt::format(
      "{} is in {}, and {} is looked at again after {}; give what the counter of {} shows",
      quantity::quoted(record::write_exact(reading)), record::word_of(reading.counter), joint.code,
      record::write_exact(*asked), record::word_of(asked->counter));
  throw AtPage<failure::InputError>("--counter " + why, why);
}

LookDone record_look(logbook::Logbook& logbook, const logbook::Writer& stated,
                     const LookWords& words) {
  auto address = record::read_address(words.address);
  Amendment amendment(logbook, stated, words.correction);
  const auto& writer = amendment.writer();
  auto recheck = look_from(words, amendment.before<record::Recheck>());
  amendment.strike_replaced({"recheck"});
  const auto joint = joint_at_or_refuse(logbook, address.joint, address.positions);
  recheck.joint = joint.code;
  recheck.positions = std::move(address.positions);
  if (!words.counter.empty()) check_counter(joint, *recheck.counter);
  const progress::Reassembly now(logbook.job_of(joint.code), record::local_day(writer.done_at));
  refuse_without_stripe(now, recheck, writer.done_at);
  refuse_aligned_after_turn(now, recheck, writer.done_at);
  LookDone look{{{{amendment.append(recheck), words::line_text(recheck)}},
                 remarks_on_look(now, recheck, writer.done_at)},
                recheck,
                std::nullopt,
                now.job.start.unit};
  for (auto& remark : remarks_under_cover(logbook, joint.code, writer.done_at)) {
    look.done.remarks.push_back(std::move(remark));
  }
  amendment.commit();
  if (!recheck.turned && progress::lacks_reading(joint, recheck.counter)) {
    look.done.remarks.push_back(progress::reading_missing(joint, "recheck", recheck.positions,
                                                          look.done.lines.front().stamp.line));
  }
  amendment.tell_replaced(look.done);
  if (recheck.turned) look.turned = progress::turned_stripe(now, recheck);
  return look;
}

}  // namespace act
