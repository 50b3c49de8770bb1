#pragma once

#include <optional>
#include <string>
#include <vector>

#include "quantity/torque.h"
#include "record/job.h"
#include "record/through_adapter.h"

namespace plan {

// The torque a step has to reach, with the limits it must stay within where there are any. With one
// limit alone, a minimum or a maximum, `torque` is that limit, and the setting keeps so far from it
// that the wrench's permissible deviation cannot carry the torque past it.
struct Aim {
  quantity::Torque torque;
  std::optional<quantity::Torque> low;
  std::optional<quantity::Torque> high;
  std::optional<quantity::TorqueUnit> stated_in = std::nullopt;  // the unit of its source
  double fine_enough = 0.01;  // how far off the nearest mark may be, as a share of the torque
  // What of the torque and its limits it takes to run the fastener before it seats, as read in its
  // test; nothing where that is not contained.
  std::optional<quantity::Torque> running = std::nullopt;
  // Of a fastener whose own is not known: the most that a test of its joint read, which has to be
  // read anew and added; and what was contained as long as the one before it was in.
  std::optional<quantity::Torque> may_run = std::nullopt;
  std::optional<quantity::Torque> had_running = std::nullopt;

  bool operator==(const Aim&) const = default;
};

[[nodiscard]] bool is_minimum(const Aim& aim);
[[nodiscard]] bool is_maximum(const Aim& aim);

using record::ThroughAdapter;

// A wrench and where to set it.
struct WrenchSetting {
  const record::Wrench* wrench = nullptr;
  double setting = 0.0;  // on its own scale, rounded to its graduation
  quantity::Torque applied = quantity::Torque::newton_metres(0);  // on the fastener
  bool calibration_known = true;
  // What a minimum or a maximum was kept clear of by: the wrench's permissible deviation there.
  std::optional<quantity::Percent> kept_clear_by = std::nullopt;
  // What the wrench may be off by and half a graduation, together, at the fastener; and as a share
  // of the tolerance to either side, where the aim has two limits.
  quantity::Torque may_be_off = quantity::Torque::newton_metres(0);
  std::optional<double> tolerance_used = std::nullopt;
};

// The share of a tolerance that a wrench may use up: what is left has to hold the hand and the
// reading of the scale. Own choice, no source.
inline constexpr double kMostOfTolerance = 2.0 / 3.0;

// A change to the finest wrench is spared where the one in hand may be off by no more than this
// multiple of it, or uses up no more than this share of the tolerance. Own choices, no source.
inline constexpr double kAsFine = 2.0;
inline constexpr double kLeavesEnough = 0.5;

// This setting of a wrench, for this aim, as it was made through an adapter of this ratio.
[[nodiscard]] WrenchSetting set_on(const record::Wrench& wrench, double setting, const Aim& aim,
                                   double torque_ratio);

[[nodiscard]] bool uses_up_tolerance(const WrenchSetting& setting);

// "95 N·m allows ±2.0, and TW2 may be off by 3.3 of that, more than two thirds": of a setting that
// uses it up, for an aim with two limits.
[[nodiscard]] std::string tolerance_used_in_words(const Aim& aim, const WrenchSetting& setting,
                                                  quantity::TorqueUnit unit);

// Chooses among the wrenches of a logbook, each as it is on `day`. With an adapter the setting is
// converted: it has to lie in the wrench's range, the torque it gives within the aim's limits.
class WrenchChoice {
 public:
  WrenchChoice(const record::Job& job, record::Day day, double torque_ratio = 1.0);

  // The wrench for a step, or nothing where none can do it. A wrench can do it when it is in
  // calibration on the day (or has none on record: second choice), when the setting lies in its
  // usable range, and when the setting, rounded to the graduation, keeps within the limits (a lone
  // limit with the wrench's permissible deviation against it: setting · (1 ∓ deviation)). Those are
  // equally good that are fine enough (nearest mark off the torque by no more than the aim allows)
  // and use up no more of the tolerance than kMostOfTolerance: among them one with a scale in the
  // unit of the source comes first, since a converted setting invites a slip; then the one of the
  // step before, to spare a change, where it is about as fine as the finest of them (kAsFine) or
  // leaves enough of the tolerance all the same (kLeavesEnough). Else, and where none is so good,
  // the one that may be off the least.
  [[nodiscard]] std::optional<WrenchSetting> choose(const Aim& aim,
                                                    const record::Wrench* last_used) const;

  // True where a wrench has a setting for this in its usable range, in calibration or not.
  [[nodiscard]] bool covers(const Aim& aim) const;

  // What is missing, for a person: "no wrench here can do 9 N·m; one covering 8.1 to 9.9 N·m is
  // needed", with the reason each wrench at hand fell out. Through an adapter what has to be
  // covered are settings.
  [[nodiscard]] std::string what_is_missing(const Aim& aim) const;

 private:
  std::vector<const record::Wrench*> wrenches_;
  quantity::TorqueUnit unit_;
  record::Day day_;
  double torque_ratio_;
};

}  // namespace plan
