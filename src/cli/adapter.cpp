#include "cli/adapter.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "cli/adapter_options.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "quantity/length_text.h"
#include "quantity/number_text.h"
#include "screen/adapter_answer.h"
#include "terminal/session.h"

namespace cli {

void declare_adapter(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<AdapterCommandOptions>();
  command.add_option("--torque", options->torque, "Wanted on the fastener, such as \"135 in·lbf\"")
      ->required()
      ->option_text("TORQUE");
  command
      .add_option("--length", options->length,
                  "Wrench: from the square drive to the middle of the hand grip")
      ->required()
      ->option_text("LENGTH");
  command
      .add_option("--extension", options->extension,
                  "Crowfoot or extension: from the square drive to the middle of the fastener")
      ->required()
      ->option_text("LENGTH");
  command
      .add_option("--angle", options->angle,
                  "Between extension and wrench: 0 straight on (the default), 90 square to it, 180 "
                  "folded back")
      ->option_text("DEGREES");
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_adapter(*options, session);
    };
  });
}

int run_adapter(const AdapterCommandOptions& options, const terminal::Session& session) {
  const auto wanted = quantity::read_torque(options.torque);
  if (wanted.value <= 0.0) {
    throw failure::InputError(
        fmt::format("--torque {}: expected a torque above zero", quantity::quoted(options.torque)));
  }
  const fastener::Adapter adapter{quantity::read_length(options.length),
                                  quantity::read_length(options.extension),
                                  record::read_adapter_angle(options.angle)};
  session.out() << (session.json() ? screen::adapter_json(wanted, adapter)
                                   : screen::adapter_text(wanted, adapter, session.page()));
  return failure::kDone;
}

}  // namespace cli
