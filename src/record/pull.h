#pragma once

#include <string>
#include <vector>

#include "record/entry.h"
#include "record/in_job.h"
#include "record/measured.h"

namespace record {

// One pull of a found-torque test that is under way and has not reached the mark yet. It is a line
// of its own, so that no answer is lost between two pulls; the finding that ends the test holds the
// readings of all of them.
struct Pull {
  std::string joint;
  int position = 0;
  std::string wrench;
  quantity::TorqueUnit unit = quantity::TorqueUnit::NewtonMetre;  // of that wrench's scale
  Restart restart = Restart::Stacked;
  SettingReading reading;  // short or no-move
  std::string typed;       // the reading as entered
};
template <>
struct InJob<Pull> {
  std::vector<Entry<Pull>> pulls;
};

// The pulls of one position, on one wrench, in the order pulled.
using Pulls = std::vector<const Entry<Pull>*>;

// What these pulls, at least one, come to so far: the test as a finding records it. How the last
// one was started counts: it is the next one that meets the mark.
[[nodiscard]] Measured test_of(const Pulls& pulls);

// Adds further readings to a test, and what was typed for them.
void add_readings(Measured& test, const std::vector<SettingReading>& readings,
                  const std::string& typed);

}  // namespace record
