#include "record/measured.h"

#include <fmt/format.h>

#include <cmath>

#include "quantity/angle_text.h"
#include "quantity/ascii.h"

namespace record {
namespace {

using failure::InputError;
using quantity::quoted;

constexpr std::size_t kMostReadings = 60;

// What a finger that slipped may have been meant for, as far as that goes on from `before` by no
// more than as much again: two digits the wrong way round, or a nought left out. " (31?)", or
// nothing.
std::string perhaps_meant(double setting, double before) {
  std::vector<double> meant;
  if (setting >= 10.0 && setting < 100.0 && setting == std::floor(setting)) {
    const auto tens = std::floor(setting / 10.0);
    meant.push_back((setting - tens * 10.0) * 10.0 + tens);
  }
  meant.push_back(setting * 10.0);
  std::string text;
  for (const double each : meant) {
    if (each <= before || each > 2.0 * before) continue;
    text += fmt::format("{}{}?", text.empty() ? " (" : " ", quantity::write_exact(each));
  }
  return text.empty() ? text : text + ')';
}

// Degrees above zero are short of the line, below zero past it.
bool fits(Mark mark, double degrees) {
  switch (mark) {
    case Mark::Short:
      return degrees > 0.0;
    case Mark::On:
      return degrees == 0.0;
    case Mark::Past:
      return degrees < 0.0;
    case Mark::NoMove:
      break;
  }
  return false;
}

// Readings may be parted by a comma or semicolon besides a blank.
bool begins_with_separator(std::string_view text) {
  return text.starts_with(',') || text.starts_with(';');
}

// The mark's word or its first letter, in any case, at the front of `text`, which is moved past it.
std::optional<Mark> take_mark(std::string_view& text) {
  for (const auto& word : Vocabulary<Mark>::kWords) {
    for (const std::string_view form : {word.text, word.text.substr(0, 1)}) {
      if (!quantity::starts_with_in_any_case(text, form)) continue;
      const auto behind = text.substr(form.size());
      if (!behind.empty() && behind.front() != ' ' && !begins_with_separator(behind)) continue;
      text = quantity::trimmed(behind);
      return word.value;
    }
  }
  return std::nullopt;
}

// The number in the first word of `text`, which is moved past it. Pulls are parted by blanks, so
// what stands behind one is no group of thousands.
quantity::LeadingNumber take_number(std::string_view& text, std::string_view whole) {
  const auto word = text.substr(0, text.find(' '));
  const auto number = quantity::read_leading_number(word, whole);
  text.remove_prefix(static_cast<std::size_t>(number.rest.data() - text.data()));
  text = quantity::trimmed(text);
  return number;
}

// A number with nothing but the next pull, or nothing at all, behind it.
bool is_bare_number(std::string_view text) {
  const auto end = text.find_first_not_of("0123456789.,");
  if (end == 0) return false;
  if (end == std::string_view::npos) return true;
  const auto behind = quantity::trimmed(text.substr(end));
  return text[end] == ' ' && !behind.empty() && quantity::is_digit(behind.front());
}

// An offset at the front of `text`, which is moved past it; nothing where a setting follows.
std::optional<quantity::Angle> take_offset(std::string_view& text, std::string_view whole,
                                           std::optional<quantity::Length> radius) {
  if (text.empty() || begins_with_separator(text) || is_bare_number(text)) return std::nullopt;
  if (const auto leading = quantity::read_leading_angle(text, whole)) {
    text = leading->rest;
    return leading->angle;
  }
  const auto number = quantity::read_leading_number(text, whole);
  if (!number.rest.starts_with("mm")) return std::nullopt;
  if (!radius) {
    throw InputError(fmt::format(
        "{}: an offset in mm needs the distance from the axis to the mark; give --radius, or the "
        "offset in degrees",
        quoted(whole)));
  }
  text = quantity::trimmed(number.rest.substr(2));
  return quantity::Angle::radians(quantity::Length::millimetres(number.value) / *radius);
}

// `before` is the reading that the text follows, where there is one.
SettingReading take_reading(std::string_view& text, std::string_view whole,
                            const SettingReading* before, std::optional<quantity::Length> radius) {
  const auto number = take_number(text, whole);
  SettingReading reading{number.value, Mark::Short, std::nullopt};
  if (text.starts_with(':')) text = quantity::trimmed(text.substr(1));
  const auto mark = take_mark(text);
  if (!mark) {
    throw InputError(fmt::format(
        "{}: after the setting {} expected where the mark stood, such as 75s (short), 80o (on), "
        "85p (past) or 60n (no move); settings are on the wrench's own scale and carry no unit{}",
        quoted(whole), number.digits,
        before == nullptr ? ""
                          : fmt::format("; if {} is how far the mark still was, write {}°",
                                        number.digits, number.digits)));
  }
  if (number.value <= 0.0) {
    throw InputError(fmt::format("{}: a setting must be above zero", quoted(whole)));
  }
  reading.mark = *mark;
  if (const auto offset = take_offset(text, whole, radius)) {
    // Taken from zero, so that past by nothing, which is refused, is not told as less than that.
    reading.offset = reading.mark == Mark::Past ? quantity::Angle::degrees(0.0) - *offset : *offset;
  }
  return reading;
}

}  // namespace

bool reached(Mark mark) { return mark == Mark::On || mark == Mark::Past; }

quantity::Torque applied_torque(const Measured& measured, double setting) {
  return quantity::torque_of(setting, measured.unit) * measured.adapter.torque_ratio;
}

std::vector<SettingReading> read_readings(std::string_view text,
                                          std::optional<quantity::Length> radius) {
  std::vector<SettingReading> readings;
  std::string_view rest = quantity::trimmed(text);
  while (!rest.empty()) {
    const auto* before = readings.empty() ? nullptr : &readings.back();
    readings.push_back(take_reading(rest, text, before, radius));
    if (begins_with_separator(rest)) rest = quantity::trimmed(rest.substr(1));
  }
  return readings;
}

std::string write_exact(const SettingReading& reading) {
  std::string text = quantity::write_exact(reading.setting);
  text += word_of(reading.mark).front();
  if (reading.offset) {
    const bool past = reading.offset->in_degrees() < 0.0;
    text += " " + quantity::write_exact(past ? *reading.offset * -1.0 : *reading.offset);
  }
  return text;
}

std::string write_exact(const std::vector<SettingReading>& readings) {
  std::string text;
  for (const auto& reading : readings) text += (text.empty() ? "" : " ") + write_exact(reading);
  return text;
}

void check_readings(const std::vector<SettingReading>& readings) {
  if (readings.empty()) {
    throw InputError("no readings; expected at least one, such as 60s 70s 75s 80o");
  }
  if (readings.size() > kMostReadings) {
    throw InputError(fmt::format("{} readings are more than one test has; expected at most {}",
                                 readings.size(), kMostReadings));
  }
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const auto& reading = readings[i];
    if (reading.mark == Mark::NoMove && reading.offset) {
      throw InputError(fmt::format("{}: a fastener that did not move has no new offset to read",
                                   write_exact(reading)));
    }
    if (reading.offset && !fits(reading.mark, reading.offset->in_degrees())) {
      throw InputError(fmt::format(
          "{}: the offset denies the mark; short and past have one above zero, on has none",
          write_exact(reading)));
    }
    if (i == 0) continue;
    const auto& before = readings[i - 1];
    if (reading.setting <= before.setting) {
      throw InputError(fmt::format(
          "{} after {}: settings must rise from pull to pull; {} may be mistyped{}, and a test "
          "that "
          "was started anew is entered as a second finding",
          write_exact(reading), write_exact(before), quantity::write_exact(reading.setting),
          perhaps_meant(reading.setting, before.setting)));
    }
    if ((reached(before.mark) && !reached(reading.mark)) ||
        (before.mark == Mark::Past && reading.mark == Mark::On)) {
      throw InputError(
          fmt::format("{} after {}: the mark cannot fall back at a higher setting; check "
                      "which reading is wrong",
                      write_exact(reading), write_exact(before)));
    }
  }
}

std::string readings_text(const Measured& measured) {
  return measured.readings_typed.empty() ? write_exact(measured.readings) : measured.readings_typed;
}

}  // namespace record
