#include "cli/wrench.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "cli/correction_options.h"
#include "cli/entered_name.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "screen/entered_list.h"
#include "terminal/session.h"

namespace cli {
namespace {

int list_wrenches(const terminal::Session& session, bool whole) {
  const auto job = session.open_to_read().job_of_none();
  session.out() << (session.json()
                        ? screen::wrench_list_json(job, session.day())
                        : screen::wrench_list_text(job, session.day(), whole, session.page()));
  return failure::kDone;
}

}  // namespace

void declare_wrench(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<act::WrenchWords>();
  auto* name = command.add_option("NAME", options->name, "Its short name, such as TW2");
  command.add_option("--range", options->range, "Both ends of its scale, such as \"20..200 N·m\"")
      ->option_text("SCALE");
  command.add_option("--graduation", options->graduation, "Step between two marks of the scale")
      ->option_text("TORQUE");
  command.add_option("--kind", options->kind, "setting (the default), indicating or electronic")
      ->option_text("KIND");
  command
      .add_option("--accuracy", options->accuracy,
                  "Permissible deviation from its certificate; else ISO 6789-1 is taken")
      ->option_text("PERCENT");
  command.add_option("--serial", options->serial, "Serial number")->option_text("TEXT");
  command.option_defaults()->group("Its calibration");
  command.add_option("--calibrated", options->calibrated, "Day of the last calibration")
      ->option_text("DAY");
  command.add_option("--valid", options->valid, "How long a calibration holds (12mo)")
      ->option_text("MONTHS");
  command
      .add_option("--found-off", options->found_off,
                  "Largest deviation that this calibration found before adjusting, such as 6%")
      ->option_text("PERCENT");
  declare_correction(command, options->correction);
  name_first(command, *name);
  auto whole = std::make_shared<bool>(false);
  command.add_flag("--whole", *whole, "The list, not cut")->excludes(name)->group(kListGroup);
  command.callback([options, whole, &pending] {
    pending.run = [options, whole](const terminal::Session& session) {
      return options->name.empty() ? list_wrenches(session, *whole) : run_wrench(*options, session);
    };
  });
}

int run_wrench(const act::WrenchWords& words, const terminal::Session& session) {
  auto logbook = session.open_to_write();
  // Asked for the wrench of a joint.
  if (words.range.empty() && !logbook.wrench(words.name) && logbook.joint(words.name)) {
    throw failure::Refusal(fmt::format(
        "{0} is a joint, and no wrench; which wrench it takes is told by \"boltwitness show {0}\"",
        words.name));
  }
  session.tell(act::enter_wrench(logbook, session.writer(), words));
  return failure::kDone;
}

}  // namespace cli
