#include "cli/out.h"

#include <CLI/CLI.hpp>

#include "cli/pending.h"
#include "cli/removal_entry.h"
#include "failure/exit_code.h"
#include "fastener/thread_text.h"
#include "quantity/length_text.h"
#include "record/address.h"
#include "record/typed_text.h"
#include "terminal/session.h"

namespace cli {
namespace {

record::Removal removal_from(const OutOptions& options, record::Address address) {
  record::Removal removal;
  removal.joint = std::move(address.joint);
  removal.positions = std::move(address.positions);
  if (!options.broke.empty()) {
    removal.broke = record::read_word<record::BreakLoose>(options.broke);
  }
  removal.marked = !options.no_mark;
  if (!options.damaged_thread.empty()) {
    removal.damaged_thread = record::read_word<record::DamagedThread>(options.damaged_thread);
  }
  removal.bag = record::read_optional_label(options.bag, "--bag", 80);
  removal.note = record::read_optional_label(options.note, "--note", 1000);
  if (!options.length.empty()) {
    removal.other_length = quantity::read_length(options.length);
    removal.other_length_typed = record::read_label(options.length, "--length");
  }
  if (!options.size.empty()) {
    removal.other_size = fastener::write_exact(fastener::read_thread(options.size));
  }
  if (!options.grade.empty()) {
    removal.other_grade = record::read_grade_or_label(options.grade);
  }
  return removal;
}

}  // namespace

void declare_out(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<OutOptions>();
  auto* command = app.add_subcommand("out", "Record fasteners as they come out");
  command->add_option("ADDRESS", options->address, "Which ones, such as J06/1-14 or J06/3,5")
      ->required()
      ->option_text("JOINT/POSITIONS");
  command
      ->add_option("--broke", options->broke,
                   "How it broke loose: normal (the default), tight, seized, loose (it was loose "
                   "already), sheared, empty (no fastener in the hole)")
      ->option_text("WORD");
  command
      ->add_option("--damaged-thread", options->damaged_thread,
                   "A thread is torn, pulled or crossed: that of the fastener, the hole, or both")
      ->option_text("WHERE");
  command->add_flag("--no-mark", options->no_mark, "No teardown mark was drawn");
  command->add_option("--bag", options->bag, "Where they are kept")->option_text("TEXT");
  command->add_option("--note", options->note, "Anything worth knowing")->option_text("TEXT");
  command
      ->add_option("--length", options->length,
                   "Length that came out, where it is not the joint's own")
      ->option_text("LENGTH");
  command
      ->add_option("--size", options->size, "Thread that came out, where it is not the joint's own")
      ->option_text("THREAD");
  command
      ->add_option("--grade", options->grade,
                   "Grade that came out, where it is not the joint's own")
      ->option_text("GRADE");
  declare_correction(*command, options->correction);
  command->callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_out(*options, session);
    };
  });
}

int run_out(const OutOptions& options, const terminal::Session& session) {
  auto address = record::read_address(options.address);
  record_removal(session, removal_from(options, std::move(address)), options.correction);
  return failure::kDone;
}

}  // namespace cli
