#include "paper/wrench_table.h"

#include <fmt/format.h>

#include "paper/grid_table.h"
#include "quantity/number_text.h"

namespace paper {
namespace {

std::string calibration_words(const record::Wrench& wrench, record::Day day) {
  const auto ends = record::calibration_ends(wrench);
  switch (record::calibration_on(wrench, day)) {
    case record::Calibration::Valid:
      return "valid to " + record::write_day(*ends);
    case record::Calibration::Expired:
      return "ran out on " + record::write_day(*ends);
    case record::Calibration::NotYet:
      return "not yet valid on this day";
    case record::Calibration::Unknown:
      break;
  }
  return "none on record";
}

}  // namespace

void write_wrench_table(Markup& page, const record::Job& job, record::Day day) {
  const auto names = record::wrench_names(job);
  if (names.empty()) {
    page.element("p", "No wrench is in the logbook.");
    return;
  }
  GridTable table(page, "Wrenches",
                  {"wrench", "scale", "graduation", "usable from", "kind", "accuracy", "serial",
                   "calibrated", fmt::format("on {}", record::write_day(day))},
                  "wrenches");
  for (const auto name : names) {
    const auto& wrench = *record::wrench_in(job, name);
    table.row({wrench.name, record::scale_text(wrench), record::graduation_text(wrench),
               fmt::format("{} {}", quantity::write_rounded(record::least_setting(wrench)),
                           quantity::name_of(wrench.scale.unit)),
               record::word_of(wrench.kind),
               wrench.accuracy ? record::accuracy_text(wrench) : std::string("ISO 6789-1"),
               wrench.serial.empty() ? std::string("-") : wrench.serial,
               wrench.calibrated ? record::write_day(*wrench.calibrated) : std::string("-"),
               calibration_words(wrench, day)});
  }
  table.end();
}

}  // namespace paper
