#include "finding/next_setting.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "finding/found_torque.h"
#include "quantity/number_text.h"

namespace finding {
namespace {

using fastener::TorqueRange;
using quantity::Torque;

constexpr double kFirstShare = 2.0 / 3.0;  // of the middle of what is expected
constexpr double kFirstAtMost = 0.9;       // of its low end
constexpr double kFineShare = 0.25;        // of its width
constexpr double kLeastStep = 0.02;        // of the last setting
constexpr double kRoundingSlack = 1e-9;    // of a graduation: 3 x 0.1 is a mark of the scale

// Torques at the fastener as settings of this wrench, and its scale's marks.
class Scale {
 public:
  explicit Scale(const Search& search) : search_(search) {}

  [[nodiscard]] double setting(Torque torque) const {
    return quantity::in_unit(torque, search_.measured.unit) / search_.measured.adapter_ratio;
  }
  [[nodiscard]] Torque torque(double setting) const {
    return record::applied_torque(search_.measured, setting);
  }
  [[nodiscard]] double mark_at_or_below(double setting) const {
    return mark(std::floor(setting / graduation() + kRoundingSlack));
  }
  [[nodiscard]] double mark_at_or_above(double setting) const {
    return mark(std::ceil(setting / graduation() - kRoundingSlack));
  }
  [[nodiscard]] double mark_above(double setting) const {
    return mark(std::floor(setting / graduation() + kRoundingSlack) + 1.0);
  }
  [[nodiscard]] double graduation() const { return search_.wrench.graduation; }

  // "75 N·m"
  [[nodiscard]] std::string text(double setting) const {
    return fmt::format("{} {}", quantity::write_rounded(setting),
                       quantity::name_of(search_.measured.unit));
  }

 private:
  [[nodiscard]] double mark(double number) const {
    return record::scale_mark(search_.wrench, number);
  }

  const Search& search_;
};

// The mark was reached at `at`, the first such reading.
Stop stop_at_mark(const Search& search, const Scale& scale,
                  std::vector<record::SettingReading>::const_iterator at) {
  if (at == search.measured.readings.begin()) {
    const double start = std::max(record::least_setting(search.wrench),
                                  scale.mark_at_or_below(at->setting * kFirstShare));
    return {
        StopReason::MarkReached,
        fmt::format("the mark was there at once: the torque is {} or less; to bracket it, slacken "
                    "until the mark is well short and start again at {}",
                    scale.text(at->setting), scale.text(std::min(start, at->setting)))};
  }
  const double before = (at - 1)->setting;
  const double step = at->setting - before;
  const double middle = at->mark == record::Mark::On ? at->setting : before + step / 2.0;
  if (step / 2.0 <= kFineHalfWidth * middle * (1.0 + kRoundingSlack)) {
    return {StopReason::Bracketed, fmt::format("the mark lined up between {} and {}: enter it",
                                               scale.text(before), scale.text(at->setting))};
  }
  const double fine = scale.mark_at_or_below(scale.setting(widest_fine_step(scale.torque(before))));
  if (fine <= 0.0) {
    return {
        StopReason::MarkReached,
        fmt::format("the mark lined up between {} and {}: enter it; this scale of {} has no step "
                    "fine enough for grade A",
                    scale.text(before), scale.text(at->setting), scale.text(scale.graduation()))};
  }
  return {StopReason::MarkReached,
          fmt::format("the mark lined up between {} and {}: enter it; to narrow it, slacken until "
                      "the mark is well short, pull at {} and go up in steps of {} as a second "
                      "finding, backed-off",
                      scale.text(before), scale.text(at->setting), scale.text(before),
                      scale.text(fine))};
}

NextSetting first_setting(const Search& search, const Scale& scale) {
  const double least = scale.mark_at_or_above(record::least_setting(search.wrench));
  if (!search.expected)
    return {least, "nothing is expected: begin where the wrench's range begins"};
  const auto& [low, high] = *search.expected;
  const Torque wanted = std::min((low + high) / 2.0 * kFirstShare, low * kFirstAtMost);
  const double setting = scale.mark_at_or_below(scale.setting(wanted));
  if (setting < least) return {least, "the wrench's range begins here"};
  return {setting, "well below what is expected, so that the mark is still short"};
}

NextSetting rising(const Search& search, const Scale& scale) {
  const auto& last = search.measured.readings.back();
  const double coarse = scale.setting(widest_fine_step(scale.torque(last.setting)));
  double step = coarse;
  std::string_view why = "a coarse step: still below what is expected";
  if (!search.expected) {
    why = "the widest step that still gives a fine bracket";
  } else if (search.expected->low == search.expected->high) {
    why = "the widest step that still gives a fine bracket: one limit alone asks for no finer";
  } else if (last.setting + coarse > scale.setting(search.expected->low)) {
    const auto& [low, high] = *search.expected;
    step = std::clamp(scale.setting((high - low) * kFineShare), kLeastStep * last.setting, coarse);
    why = "a fine step: near what is expected";
  }
  const double next = scale.mark_at_or_below(last.setting + step);
  if (next <= last.setting) {
    return {scale.mark_above(last.setting), "one graduation: the scale has no finer step"};
  }
  if (last.mark == record::Mark::NoMove) {
    why = "it has not moved yet: back it off first, so that it moves as it meets the mark";
  }
  return {next, why};
}

}  // namespace

Proposal next_setting(const Search& search) {
  const Scale scale(search);
  const auto& readings = search.measured.readings;
  const auto at = std::ranges::find_if(readings, record::reached, &record::SettingReading::mark);
  if (at != readings.end()) return stop_at_mark(search, scale, at);

  NextSetting next = readings.empty() ? first_setting(search, scale) : rising(search, scale);
  const double last = readings.empty() ? 0.0 : readings.back().setting;
  // The scale's end first: a mark above it cannot be set, whatever the ceiling.
  const double end = scale.mark_at_or_below(search.wrench.scale.high);
  if (next.setting > end) next = {end, "the end of the wrench's scale"};
  if (next.setting <= last) {
    return Stop{StopReason::WrenchEnds,
                fmt::format("the wrench's scale ends at {}: go on with a larger wrench, or enter "
                            "that the torque is above {}",
                            scale.text(search.wrench.scale.high), scale.text(last))};
  }
  if (!search.ceiling) return next;

  const double top = scale.setting(search.ceiling->torque);
  const double ceiling = scale.mark_at_or_below(top);
  if (next.setting <= ceiling) return next;
  const auto limit = fmt::format("{} ({})", scale.text(top), name_of(search.ceiling->from));
  if (readings.empty() && ceiling < scale.mark_at_or_above(record::least_setting(search.wrench))) {
    return Stop{StopReason::WrenchEnds,
                fmt::format("the wrench's range begins at {}, above the ceiling of {}: use a "
                            "smaller wrench",
                            scale.text(record::least_setting(search.wrench)), limit)};
  }
  if (ceiling > last) return NextSetting{ceiling, "the last setting below the ceiling"};
  return Stop{StopReason::Ceiling,
              fmt::format("the next setting would pass the ceiling of {}: pull no further, enter "
                          "that the torque is above {}",
                          limit, scale.text(last))};
}

}  // namespace finding
