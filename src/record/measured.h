#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "quantity/angle.h"
#include "quantity/length.h"
#include "quantity/stated_torque.h"
#include "record/in_job.h"
#include "record/through_adapter.h"
#include "record/word.h"

namespace record {

// Where the witness mark stood after a pull at one setting.
enum class Mark { Short, On, Past, NoMove };
template <>
struct Vocabulary<Mark> {
  static constexpr std::array kWords = {Word{Mark::Short, "short"}, Word{Mark::On, "on"},
                                        Word{Mark::Past, "past"}, Word{Mark::NoMove, "no-move"}};
};

// The mark stood on the line or past it.
[[nodiscard]] bool reached(Mark mark);

// One pull: the setting on the wrench's own scale and the mark after it. `offset` is how far the
// mark still was from the line: above zero short of it, below zero past it.
struct SettingReading {
  double setting = 0.0;
  Mark mark = Mark::Short;
  std::optional<quantity::Angle> offset;

  bool operator==(const SettingReading&) const = default;
};

// How the next pull was started. Stacked: setting on setting, each pull from rest. Backed off: the
// fastener was slackened again before each pull, so that it was moving when it met the mark.
enum class Restart { Stacked, BackedOff };
template <>
struct Vocabulary<Restart> {
  static constexpr std::array kWords = {Word{Restart::Stacked, "stacked"},
                                        Word{Restart::BackedOff, "backed-off"}};
};

// Whether the other fasteners of the joint still held the part during the test.
enum class Neighbours { Tight, Slack };
template <>
struct Vocabulary<Neighbours> {
  static constexpr std::array kWords = {Word{Neighbours::Tight, "tight"},
                                        Word{Neighbours::Slack, "slack"}};
};

// A found-torque test of one fastener: readings in the order pulled, settings rising.
struct Measured {
  std::string joint;
  int position = 0;
  std::string wrench;
  quantity::TorqueUnit unit = quantity::TorqueUnit::NewtonMetre;  // of that wrench's scale
  std::vector<SettingReading> readings;
  ThroughAdapter adapter;
  Restart restart = Restart::Stacked;
  std::optional<Neighbours> neighbours;              // nothing where it was not noted
  std::optional<quantity::StatedTorque> prevailing;  // to run the fastener before it seats
  std::string readings_typed = {};  // as entered; empty where an earlier version wrote it
  std::string radius_typed = {};    // for offsets in mm; empty where there was none
};
template <>
struct InJob<Measured> {
  std::vector<Entry<Measured>> findings;
};

// The readings as they were typed, else in the program's own words.
[[nodiscard]] std::string readings_text(const Measured& measured);

// The torque at the fastener for one setting: through the adapter, if there was one.
[[nodiscard]] quantity::Torque applied_torque(const Measured& measured, double setting);

// Reads the pulls of one test, in order, parted by blanks or commas: "60s 70s 75s 80o",
// "60S, 70S", "60:short 80:on",
// "80 short 6°" (how far the mark still is from the line), "80 short 1.5mm" (along the head's edge;
// `radius` is then the distance from the axis to the mark). Marks: s short, o on, p past, n no
// move. InputError where a pull cannot be read, and where a unit is written behind a setting:
// settings are on the wrench's own scale.
[[nodiscard]] std::vector<SettingReading> read_readings(std::string_view text,
                                                        std::optional<quantity::Length> radius);

// "75s", "80s 6°": read_readings gives the same reading back.
[[nodiscard]] std::string write_exact(const SettingReading& reading);
[[nodiscard]] std::string write_exact(const std::vector<SettingReading>& readings);

// InputError where the readings cannot come from one test: none at all, settings that do not rise,
// a mark that falls back (short or no-move after on or past, on after past), an offset that denies
// its mark.
void check_readings(const std::vector<SettingReading>& readings);

}  // namespace record
