#include "cli/convert.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <CLI/CLI.hpp>

#include "cli/exit_code.h"
#include "cli/pending.h"
#include "cli/session.h"
#include "quantity/number_text.h"
#include "quantity/stated_torque.h"
#include "report/convert_report.h"

namespace cli {

void declare_convert(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<ConvertOptions>();
  auto* command = app.add_subcommand("convert", "Convert a torque between units");
  command->add_option("TORQUE", options->torque, "Such as \"70 ft·lbf\"")
      ->required()
      ->option_text("TORQUE");
  command->add_option("--to", options->to, "Only this unit")->option_text("UNIT");
  command->callback([options, &pending] {
    pending.run = [options](const Session& session) { return run_convert(*options, session); };
  });
}

int run_convert(const ConvertOptions& options, const Session& session) {
  const auto stated = quantity::read_torque(fmt::format("{}", fmt::join(options.torque, " ")));
  std::optional<quantity::TorqueUnit> to;
  if (!options.to.empty()) {
    to = quantity::read_torque_unit(options.to);
    if (!to) {
      throw quantity::InputError(fmt::format("--to {}: expected one of {}",
                                             quantity::quoted(options.to),
                                             quantity::accepted_torque_units()));
    }
  }
  session.out() << (session.json() ? report::convert_json(stated, to)
                                   : report::convert_text(stated, to));
  return kDone;
}

}  // namespace cli
