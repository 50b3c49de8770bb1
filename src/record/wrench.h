#pragma once

#include <array>
#include <optional>
#include <string>

#include "quantity/percent.h"
#include "quantity/stated_torque.h"
#include "record/in_job.h"
#include "record/moment.h"
#include "record/typed_text.h"
#include "record/word.h"

namespace record {

// How the torque is had from the tool (ISO 6789-1 parts its tools into setting and indicating).
enum class WrenchKind { Setting, Indicating, Electronic };
template <>
struct Vocabulary<WrenchKind> {
  static constexpr std::array kWords = {Word{WrenchKind::Setting, "setting"},
                                        Word{WrenchKind::Indicating, "indicating"},
                                        Word{WrenchKind::Electronic, "electronic"}};
};

// The scale of a wrench in its own unit. A scale that starts at zero has no lower limit of its
// own; then 20 % of full scale is the least that may be used.
struct WrenchScale {
  double low = 0.0;
  double high = 0.0;
  quantity::TorqueUnit unit = quantity::TorqueUnit::NewtonMetre;

  bool operator==(const WrenchScale&) const = default;
};

struct Wrench {
  std::string name;
  WrenchScale scale;
  double graduation = 0.0;  // in the scale's unit
  WrenchKind kind = WrenchKind::Setting;
  std::optional<quantity::Percent> accuracy;  // from its certificate
  std::string serial;                         // may be empty
  std::optional<Day> calibrated;
  int valid_months = 12;
  // The largest deviation that this calibration found before the wrench was adjusted, without its
  // sign; nothing where the certificate does not tell.
  std::optional<quantity::Percent> found_off = std::nullopt;
  // As entered; empty where an earlier version wrote it, see scale_text and the others.
  std::string scale_typed = {};
  std::string graduation_typed = {};
  std::string accuracy_typed = {};

  bool operator==(const Wrench&) const = default;
};
template <>
struct InJob<Wrench> {
  std::vector<Entry<Wrench>> wrenches;
};

// Scale, graduation and permissible deviation as they were typed, else in the program's own words;
// the last is empty where no certificate says it.
[[nodiscard]] std::string scale_text(const Wrench& wrench);
[[nodiscard]] std::string graduation_text(const Wrench& wrench);
[[nodiscard]] std::string accuracy_text(const Wrench& wrench);

// The least usable setting, in the scale's unit: the scale's own lower limit, else 20 % of full
// scale (common rule for torque wrenches; laboratory procedure and ASME B107.300, from memory).
[[nodiscard]] double least_setting(const Wrench& wrench);

[[nodiscard]] bool in_range(const Wrench& wrench, double setting);

// Neither above the upper end of the scale nor below the lower one, where it has no mark: nothing
// can be set there.
[[nodiscard]] bool is_on_scale(const Wrench& wrench, double setting);

// "TW2 cannot be set to 18 N·m: its scale is 20..200 N·m".
[[nodiscard]] std::string not_on_scale(const Wrench& wrench, double setting);

// The setting of the n-th mark: 0.3 for the third of a 0.1 graduation, not 0.30000000000000004; no
// scale is graduated finer than a billionth.
[[nodiscard]] double scale_mark(const Wrench& wrench, double number);

// The same for a setting on another scale than the wrench has now: one that was read before the
// wrench's entry was replaced.
[[nodiscard]] bool in_range(const Wrench& wrench, const quantity::StatedTorque& setting);

// Whether the setting is a mark of the scale; marks are counted from zero or from the scale's lower
// end.
[[nodiscard]] bool on_mark(const Wrench& wrench, double setting);

// A setting that was typed for this wrench. InputError where it was given in another unit than that
// of the scale: nobody can set that there.
[[nodiscard]] double setting_on(const Wrench& wrench, const TypedSetting& typed);

// Permissible deviation: the certificate's, else that of ISO 6789-1:2017, 5.1.5 (from memory),
// which parts its tools by their maximum torque: ±6 % up to 10 N·m; above it ±4 % for setting tools
// (type II class A) and electronic ones (type I class C). An indicating one is a bending or torsion
// bar, ±6 % at any size (type I class A), or has a dial, ±4 % (class B): which is not on record, so
// ±6 %.
[[nodiscard]] quantity::Percent permissible_deviation(const Wrench& wrench);
// That of the standard alone, which counts where there is no certificate.
[[nodiscard]] quantity::Percent deviation_by_standard(const Wrench& wrench);

// True where the calibration found the wrench further off than the standard for the top of its
// scale permits, or than its certificate does where that is narrower: a certificate that states
// more than the standard makes what the wrench reads less sure and excuses nothing. What it touched
// since the calibration before is in doubt.
[[nodiscard]] bool was_out_of_tolerance(const Wrench& wrench);

// The last day on which the calibration holds; nothing where none is on record.
[[nodiscard]] std::optional<Day> calibration_ends(const Wrench& wrench);

enum class Calibration { Valid, Expired, NotYet, Unknown };
[[nodiscard]] Calibration calibration_on(const Wrench& wrench, Day day);

// A calibration is on record, and it does not hold on that day.
[[nodiscard]] bool is_out_of_calibration(const Wrench& wrench, Day day);

// Reads "20..200 N·m", "20-200 N·m", "0 to 25 N·m". InputError for a missing unit, a lower end
// that is not below the upper, or an upper end of zero.
[[nodiscard]] WrenchScale read_scale(std::string_view text);
[[nodiscard]] std::string write_exact(const WrenchScale& scale);

// Reads "1 N·m" and gives it in the scale's unit. InputError where it is zero or more than a fifth
// of the scale.
[[nodiscard]] double read_graduation(std::string_view text, const WrenchScale& scale);

// The longest that a calibration is taken to hold.
inline constexpr int kMostMonths = 120;

// Reads "12mo", "12 months", "1y": 1 to kMostMonths.
[[nodiscard]] int read_months(std::string_view text);

}  // namespace record
