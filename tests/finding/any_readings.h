#pragma once

#include <vector>

#include "record/measured.h"
#include "support/property.h"

// Rising settings, short first or not, then on for none or several, then past or not; at least one.
inline std::vector<record::SettingReading> any_rising_readings(int least_short = 0) {
  using record::Mark;
  std::vector<record::SettingReading> readings;
  double setting = *rc::gen::inRange(20, 60);
  const auto pull = [&](Mark mark, int times) {
    for (int i = 0; i < times; ++i) {
      readings.push_back({setting, mark, std::nullopt});
      setting += *rc::gen::inRange(1, 24) / 2.0;
    }
  };
  pull(Mark::Short, *rc::gen::inRange(least_short, 4));
  pull(Mark::On, *rc::gen::inRange(0, 4));
  pull(Mark::Past, *rc::gen::inRange(0, 3));
  if (readings.empty()) pull(Mark::Short, 1);
  return readings;
}
