#pragma once

#include <string_view>
#include <vector>

#include "record/content.h"
#include "record/entry.h"

namespace record {

// Everything in a logbook that counts: the entries of each kind that have not been struck, in the
// order of their ids (that is, of time). All computing starts from here and needs no store.
struct Job {
  LogbookStart start;
  std::vector<Entry<Wrench>> wrenches;
  std::vector<Entry<Joint>> joints;
  std::vector<Entry<Specified>> specifications;
  std::vector<Entry<Removal>> removals;
  std::vector<Entry<Measured>> findings;
  std::vector<Entry<FluidAmount>> fluids = {};
  std::vector<Entry<CountedItem>> items = {};
  std::vector<Entry<ItemReturn>> item_returns = {};
  std::vector<Entry<HoldPoint>> hold_points = {};
  std::vector<Entry<HoldPointStep>> hold_point_steps = {};
  std::vector<Entry<Renewal>> renewals = {};
  std::vector<Entry<Tightening>> tightenings = {};
  std::vector<Entry<FinalStripe>> stripes = {};
  std::vector<Entry<Recheck>> rechecks = {};
  std::vector<Entry<Disposition>> dispositions = {};
};

// The joint with this code in any case of letters; the latest where it was entered again.
[[nodiscard]] const Joint* joint_in(const Job& job, std::string_view code);

// The wrench as it is now: its latest entry.
[[nodiscard]] const Wrench* wrench_in(const Job& job, std::string_view name);

// The wrench as it was on a day: the entry whose calibration was the last before or on it, else
// the latest entry.
[[nodiscard]] const Wrench* wrench_on(const Job& job, std::string_view name, Day day);

// Names of the wrenches, each once, in the order of their first entry.
[[nodiscard]] std::vector<std::string_view> wrench_names(const Job& job);

}  // namespace record
