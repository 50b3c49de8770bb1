#include "words/reassembly_line_text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "quantity/angle_text.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "words/adapter_in_words.h"

namespace words {
namespace {

std::string address_text(const std::string& joint, const std::vector<int>& positions) {
  return record::write_address(joint, positions);
}

std::string note_text(const std::string& note) { return note.empty() ? "" : ", note: " + note; }

std::string counter_text(const std::optional<record::RunningAmount>& counter) {
  return counter ? " at " + record::write_exact(*counter) : "";
}

// What was asked: "torque to 80 N·m", "angle of 90°", "snug"; in the unit of the wrench it was done
// with.
std::string target_text(const record::Tightening& tightening) {
  const auto& target = tightening.target;
  const auto unit = tightening.wrench.empty() ? quantity::TorqueUnit::NewtonMetre : tightening.unit;
  std::string text(record::word_of(target.kind));
  if (target.torque) {
    text += " to " + quantity::write_rounded(*target.torque, unit);
  }
  if (target.angle) text += " by " + quantity::write_exact(*target.angle);
  return text;
}

}  // namespace

std::string say(const record::FluidAmount& fluid) {
  return fmt::format("{} of {} {}{}", fluid.typed, fluid.fluid, record::word_of(fluid.move),
                     note_text(fluid.note));
}

std::string say(const record::CountedItem& item) {
  return fmt::format("{} off: {} x {}{}", item.code, item.count, item.what,
                     item.before.empty() ? "" : "; back before " + item.before + " is closed");
}

std::string say(const record::ItemReturn& back) {
  return fmt::format("{}: {} back in place", back.code, back.count);
}

std::string say(const record::HoldPoint& point) {
  std::string text = fmt::format("hold point {}: {}", point.code, point.what);
  if (point.wait) text += "; wait " + record::write_exact(*point.wait);
  if (point.joints.empty()) return text + "; before all joints";
  return text + fmt::format("; before {}", fmt::join(point.joints, ", "));
}

std::string say(const record::HoldPointStep& step) {
  return fmt::format("hold point {} {}{}", step.code, record::word_of(step.move),
                     note_text(step.note));
}

std::string say(const record::Renewal& renewal) {
  return address_text(renewal.joint, renewal.positions) + " new ones arrived";
}

std::string say(const record::Tightening& tightening) {
  std::string text = fmt::format("{} pass {}, {}", record::address_text(tightening),
                                 tightening.pass, target_text(tightening));
  if (record::is_skipped(tightening)) return text + ": left out, " + tightening.skipped_why;
  text += tightening.second_check ? ": checked by a second person" : ": done";
  if (!tightening.wrench.empty()) text += " with " + tightening.wrench;
  if (tightening.setting) {
    text += fmt::format(" at {} {}", quantity::write_exact(*tightening.setting),
                        quantity::name_of(tightening.unit));
  }
  if (record::is_used(tightening.adapter)) {
    text += " through " + adapter_in_words(tightening.adapter);
  }
  if (tightening.turned) text += ", turned " + quantity::write_exact(*tightening.turned);
  if (!tightening.seen.empty()) text += ", seen: " + tightening.seen;
  return text;
}

std::string say(const record::FinalStripe& stripe) {
  return fmt::format(
      "{} final stripe, teardown mark {}{}", address_text(stripe.joint, stripe.positions),
      stripe.teardown_mark_wiped ? "wiped" : "still there", counter_text(stripe.counter));
}

std::string say(const record::Recheck& recheck) {
  return fmt::format(
      "{} stripe {}{}", address_text(recheck.joint, recheck.positions),
      recheck.turned ? "turned " + quantity::write_exact(*recheck.turned) : std::string("aligned"),
      counter_text(recheck.counter));
}

}  // namespace words
