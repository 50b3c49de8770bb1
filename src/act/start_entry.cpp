#include "act/start_entry.h"

#include <fmt/format.h>

#include <filesystem>

#include "failure/failure.h"
#include "quantity/number_text.h"
#include "quantity/stated_torque.h"
#include "record/typed_text.h"

namespace act {

Done start(const logbook::Writer& writer, const StartWords& words) {
  record::LogbookStart first;
  first.machine = record::read_label(words.machine, "--machine");
  const auto unit = quantity::read_torque_unit(words.unit);
  if (!unit) {
    throw failure::InputError(fmt::format("--unit {}: expected one of {}",
                                          quantity::quoted(words.unit),
                                          quantity::accepted_torque_units()));
  }
  first.unit = *unit;
  first.default_tolerance = quantity::read_percent(words.tolerance);
  first.method_error = record::read_percent_below_half(words.method_error, "--method-error");
  first.tolerance_typed = record::read_label(words.tolerance, "--tolerance");
  first.method_typed = record::read_label(words.method_error, "--method-error");

  Done done{{{logbook::start_logbook(words.file, first, writer),
              fmt::format("logbook {} started for {}", words.file, first.machine)}},
            {}};
  if (std::filesystem::path(words.file).extension() != ".bolts") {
    done.remarks.emplace_back(
        "without the ending .bolts it is not found by itself; name it with --log");
  }
  return done;
}

}  // namespace act
