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

constexpr double kFirstShare = 0.6;    // of the middle of what is expected
constexpr double kFirstAtMost = 0.9;   // of its low end
constexpr double kUnknownStep = 0.25;  // of the last setting
// Of a graduation: 3 x 0.1 is a mark of the scale, and so is one that scale_mark rounded.
constexpr double kRoundingSlack = 1e-6;

// Torques at the fastener as settings of this wrench, and its scale's marks.
class Scale {
 public:
  explicit Scale(const Search& search) : search_(search) {}

  [[nodiscard]] double setting(Torque torque) const {
    return quantity::in_unit(torque, search_.measured.unit) / search_.measured.adapter.torque_ratio;
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
  [[nodiscard]] double nearest_mark(double setting) const {
    return mark(std::round(setting / graduation()));
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
                                  scale.mark_at_or_below(at->setting * kRestartShare));
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

// Where a search begins, on any wrench; something was found before or is expected.
double usual_start(const Search& search, const Scale& scale) {
  if (search.start) return scale.mark_at_or_below(scale.setting(search.start->torque));
  const auto& expected = *search.expected;
  const Torque middle = (expected.low + expected.high) / 2.0;
  return scale.mark_at_or_below(
      scale.setting(std::min(middle * kFirstShare, expected.low * kFirstAtMost)));
}

std::string why_begin(const Search& search, const Scale& scale) {
  if (!search.start) return "well below what is expected, so that the mark is still short";
  const double low = scale.setting(search.start->found.low);
  const double high = scale.setting(search.start->found.high);
  if (search.start->from == SearchStart::From::EarlierBound) {
    return fmt::format("the mark was there at once at {} before: two thirds of that",
                       scale.text(high));
  }
  return low == high ? fmt::format("below the {} that its sibling was found at", scale.text(low))
                     : fmt::format("below the {} to {} that its siblings were found at",
                                   quantity::write_rounded(low), scale.text(high));
}

NextSetting first_setting(const Search& search, const Scale& scale) {
  const double least = scale.mark_at_or_above(record::least_setting(search.wrench));
  if (!search.expected)
    return {least, "nothing is expected: begin where the wrench's range begins"};
  const double start = usual_start(search, scale);
  if (start >= least) return {start, why_begin(search, scale)};
  const double high = scale.setting(search.expected->high);
  if (high < least) {
    return {least,
            fmt::format("the least this wrench can be used at, and already above the {} at most "
                        "that is expected: a smaller wrench would bracket it",
                        scale.text(high))};
  }
  return {least,
          fmt::format("the least this wrench can be used at; for what is expected a search would "
                      "begin at {}, so the mark may be reached at once: a smaller wrench would "
                      "bracket it",
                      scale.text(start))};
}

// The way from the last setting to the top of what is expected, parted into as many equal steps as
// it would take of the widest ones, which grow with the setting.
double near_step(double last, double top, double widest) {
  const double steps = std::log(top / last) / std::log1p(widest / last);
  return (top - last) / std::ceil(steps - kRoundingSlack);
}

NextSetting rising(const Search& search, const Scale& scale) {
  const auto& reading = search.measured.readings.back();
  const double last = reading.setting;
  const double coarse = scale.setting(widest_fine_step(scale.torque(last)));
  double next = scale.mark_at_or_below(last + coarse);
  std::string why = "the widest step that still gives a fine bracket";
  if (!search.expected) {
    next = scale.mark_at_or_below(last * (1.0 + kUnknownStep));
    why =
        "nothing is expected: a quarter at a time; where the mark is reached, back off and narrow "
        "it";
  } else if (const double start = usual_start(search, scale); start > last + coarse) {
    next = start;
    why = "far below what is expected: straight to where a search for it begins";
  } else if (const double low = scale.setting(search.expected->low); last + coarse <= low) {
    why = "a coarse step: still below what is expected";
  } else if (search.expected->low == search.expected->high) {
    why += ": one limit alone asks for no finer";
  } else {
    const Torque high = search.ceiling ? std::min(search.expected->high, search.ceiling->torque)
                                       : search.expected->high;
    const double top = scale.mark_at_or_below(scale.setting(high));
    if (last < top) {
      const double widest = std::max(coarse, scale.graduation());
      next = std::min(next, scale.nearest_mark(last + near_step(last, top, widest)));
      why = "near what is expected: equal steps to the top of it";
    }
  }
  if (next <= last) {
    return {scale.mark_above(last), "one graduation: the scale has no finer step"};
  }
  if (reading.mark == record::Mark::NoMove) {
    why = "it has not moved yet: back it off first, so that it moves as it meets the mark";
  }
  return {next, why};
}

}  // namespace

Proposal next_setting(const Search& asked) {
  Search search = asked;
  // What the siblings were found at is then all there is to be expected.
  if (!search.expected && search.start) search.expected = search.start->found;
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

std::optional<std::string> nothing_to_search(const record::Removal& removal) {
  if (removal.broke == record::BreakLoose::Empty) {
    return "the hole was found empty: there is no fastener to pull";
  }
  if (removal.broke == record::BreakLoose::Sheared) {
    return "the fastener sheared: it cannot be tightened again, rely on its neighbours";
  }
  if (!removal.marked) {
    return "no teardown mark was drawn: there is nothing to line up, rely on its neighbours";
  }
  return std::nullopt;
}

}  // namespace finding
