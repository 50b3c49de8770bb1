#include "cli/renew.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "act/lookup.h"
#include "cli/correction_options.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "screen/renewal_answer.h"
#include "terminal/session.h"

namespace cli {
namespace {

int tell_list(const RenewOptions& options, const terminal::Session& session) {
  const auto logbook = session.open_to_read();
  const auto job = logbook.job();
  const auto survey = finding::survey(job);
  auto list = plan::renewal_list(job, survey);
  if (!options.words.address.empty()) {
    const auto address = record::read_address(options.words.address);
    (void)act::joint_or_refuse(logbook, address.joint);
    std::erase_if(list,
                  [&](const plan::Renewing& renewing) { return !act::is_at(renewing, address); });
  }
  const auto& address = options.words.address;
  const auto whole = options.whole
                         ? std::string()
                         : fmt::format("renew {}{}--whole", address, address.empty() ? "" : " ");
  session.out() << (session.json() ? screen::renewals_json(list)
                                   : screen::renewals_text(list, whole, session.prose_page()));
  return failure::kDone;
}

}  // namespace

void declare_renew(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<RenewOptions>();
  command.add_option("JOINT/POSITIONS", options->words.address,
                     "Only these, such as J10/1-4, or J10 for all of its list");
  command.add_flag("--arrived", options->arrived, "New ones for these have arrived and lie ready");
  command.add_flag("--whole", options->whole, "With no list cut");
  declare_correction(command, options->words.correction);
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_renew(*options, session);
    };
  });
}

int run_renew(const RenewOptions& options, const terminal::Session& session) {
  if (options.arrived) {
    auto logbook = session.open_to_write();
    session.tell(act::record_arrival(logbook, session.writer(), options.words));
    return failure::kDone;
  }
  if (!options.words.correction.replaced_line.empty()) {
    throw failure::UsageError("what takes its place is an arrival: add --arrived");
  }
  return tell_list(options, session);
}

}  // namespace cli
