#include "cli/convert.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <CLI/CLI.hpp>

#include "cli/pending.h"
#include "failure/exit_code.h"
#include "quantity/number_text.h"
#include "quantity/stated_torque.h"
#include "screen/convert_answer.h"
#include "terminal/session.h"

namespace cli {

void declare_convert(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<ConvertOptions>();
  command.add_option("TORQUE", options->torque, "Such as \"70 ft·lbf\"")->required();
  command.add_option("--to", options->to, "Only this unit")->option_text("UNIT");
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_convert(*options, session);
    };
  });
}

int run_convert(const ConvertOptions& options, const terminal::Session& session) {
  const auto typed = fmt::format("{}", fmt::join(options.torque, " "));
  const auto stated = quantity::read_torque(typed);
  std::optional<quantity::TorqueUnit> to;
  if (!options.to.empty()) {
    to = quantity::read_torque_unit(options.to);
    if (!to) {
      throw failure::InputError(fmt::format("--to {}: expected one of {}",
                                            quantity::quoted(options.to),
                                            quantity::accepted_torque_units()));
    }
  }
  session.out() << (session.json() ? screen::convert_json(stated, typed, to)
                                   : screen::convert_text(stated, to));
  return failure::kDone;
}

}  // namespace cli
