#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "quantity/angle.h"
#include "quantity/stated_torque.h"
#include "record/in_job.h"
#include "record/through_adapter.h"
#include "record/word.h"

namespace record {

// What is done to each position in one pass. Snug: run down until the parts touch, no torque asked.
// Check: the final torque once more, nothing may turn. Renew: the fastener out and a new one in.
enum class PassKind { Snug, Torque, Check, Loosen, Angle, Renew };
template <>
struct Vocabulary<PassKind> {
  static constexpr std::array kWords = {
      Word{PassKind::Snug, "snug"},   Word{PassKind::Torque, "torque"},
      Word{PassKind::Check, "check"}, Word{PassKind::Loosen, "loosen"},
      Word{PassKind::Angle, "angle"}, Word{PassKind::Renew, "renew"}};
};

// What a pass asks of each position. Two passes that ask for the same are the same work, whatever
// their number has become; a torque that was changed by a later specification is other work.
struct PassTarget {
  PassKind kind = PassKind::Snug;
  std::optional<quantity::Torque> torque;
  std::optional<quantity::Angle> angle;

  bool operator==(const PassTarget&) const = default;
};

// Positions of one joint in one pass, as it was done; or left out, with the reason.
struct Tightening {
  std::string joint;
  std::vector<int> positions;     // rising; where `in_order`, in the order done
  int pass = 0;                   // its number in the plan of that day
  PassTarget target;              // what that plan asked for
  std::string wrench;             // empty where none was used
  std::optional<double> setting;  // on that wrench's scale
  quantity::TorqueUnit unit = quantity::TorqueUnit::NewtonMetre;  // of that scale
  ThroughAdapter adapter;
  std::optional<quantity::Angle> turned;  // for an angle pass, as read
  std::string skipped_why;                // empty where it was done
  bool second_check = false;              // a second person's look at the final value
  // Each position was named by itself, and so one after the other. A range names them without an
  // order, and so do all lines from before schema step 11.
  bool in_order = false;
  // Of thread, face and seat, where it was slackened to be looked at; empty where nothing was said.
  std::string seen = {};
};
template <>
struct InJob<Tightening> {
  std::vector<Entry<Tightening>> tightenings;
};

[[nodiscard]] inline bool is_skipped(const Tightening& tightening) {
  return !tightening.skipped_why.empty();
}

// Somebody tightened it; what was left out and a second person's look do not count.
[[nodiscard]] inline bool is_work(const Tightening& tightening) {
  return !is_skipped(tightening) && !tightening.second_check;
}

// "J06/1-4,9"; where they are in order "J06/4,3,2,1", to be read back in that order.
[[nodiscard]] std::string address_text(const Tightening& tightening);

// The torque at the fastener; nothing where no wrench was set.
[[nodiscard]] std::optional<quantity::Torque> applied_torque(const Tightening& tightening);

}  // namespace record
