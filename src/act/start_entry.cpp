#include "act/start_entry.h"

#include <fmt/format.h>

#include <filesystem>

#include "failure/failure.h"
#include "logbook/beside_file.h"
#include "quantity/angle_text.h"
#include "quantity/number_text.h"
#include "quantity/stated_torque.h"
#include "record/typed_text.h"

namespace act {
namespace {

// Beyond a quarter turn to either side a window would let everything pass.
quantity::Angle angle_window_from(const std::string& typed) {
  const auto window = quantity::read_angle(typed);
  if (window > quantity::Angle::degrees(0.0) && window <= quantity::Angle::degrees(90.0)) {
    return window;
  }
  throw failure::InputError(
      fmt::format("--angle-window {}: expected above 0° and at most 90°", quantity::quoted(typed)));
}

}  // namespace

Done start(const logbook::Writer& writer, const StartWords& words) {
  record::LogbookStart first;
  first.machine = record::read_text(words.machine, "--machine");
  const auto unit = quantity::read_torque_unit(words.unit);
  if (!unit) {
    throw failure::InputError(fmt::format("--unit {}: expected one of {}",
                                          quantity::quoted(words.unit),
                                          quantity::accepted_torque_units()));
  }
  first.unit = *unit;
  first.default_tolerance = quantity::read_percent(words.tolerance);
  first.method_error = record::read_percent_below_half(words.method_error, "--method-error");
  first.tolerance_typed = record::read_text(words.tolerance, "--tolerance");
  first.method_typed = record::read_text(words.method_error, "--method-error");
  if (!words.angle_window.empty()) {
    first.angle_window = angle_window_from(words.angle_window);
    first.angle_typed = record::read_text(words.angle_window, "--angle-window");
  }

  auto file = words.file;
  if (!std::filesystem::path(file).has_extension()) file += logbook::kLogbookSuffix;
  Done done{{{logbook::start_logbook(file, first, writer),
              fmt::format("logbook {} started for {}", file, first.machine)}},
            {}};
  if (std::filesystem::path(file).extension() != logbook::kLogbookSuffix) {
    done.remarks.push_back(
        fmt::format("without the ending {} it is not found by itself; name it with --log",
                    logbook::kLogbookSuffix));
  }
  return done;
}

}  // namespace act
