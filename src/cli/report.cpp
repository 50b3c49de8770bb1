#include "cli/report.h"

#include <CLI/CLI.hpp>

#include "audit/audit.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "paper/report_page.h"
#include "terminal/session.h"

namespace cli {

void declare_report(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<ReportOptions>();
  auto* command = app.add_subcommand(
      "report", "The whole job to print: deviations, joints, wrenches, every line of the log");
  declare_page_options(*command, options->page);
  command->callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_report(*options, session);
    };
  });
}

int run_report(const ReportOptions& options, const terminal::Session& session) {
  const auto logbook = session.open_to_read();
  const progress::Reassembly now(logbook.job(), session.day());
  const auto audit = audit::run({now.job, now.survey, session.done_at(), &now.progress});
  const auto history = logbook.history();
  give_out(paper::report_page({now, audit, history},
                              imprint_for(options.page, now.job.start, logbook, session)),
           options.page, session);
  return failure::kDone;
}

}  // namespace cli
