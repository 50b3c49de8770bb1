#include "cli/report.h"

#include <CLI/CLI.hpp>

#include "audit/audit.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "paper/report_page.h"
#include "terminal/progress_bars.h"
#include "terminal/session.h"

namespace cli {

void declare_report(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<ReportOptions>();
  declare_page_options(command, options->page);
  command.add_flag("--no-photographs", options->no_photographs,
                   "Without the photographs, to be sent or printed in a few pages");
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_report(*options, session);
    };
  });
}

int run_report(const ReportOptions& options, const terminal::Session& session) {
  terminal::ProgressBars bars(session);
  auto logbook = session.open_to_read();
  logbook.show_progress(bars.of_lines("reading"));
  const progress::Reassembly now(logbook.job(), session.day());
  bars.begin("looking at joints", now.survey.joints.size());
  audit::Case subject{now.job, now.survey, session.done_at(), &now.progress};
  subject.joint_done = [&] { bars.step(); };
  const auto audit = audit::run(subject);
  const auto history = logbook.history();
  paper::ReportContent content{now, audit, history};
  if (!options.no_photographs) {
    content.bytes_of = [&](const record::Photograph& each) { return logbook.bytes_of(each); };
  }
  // No bar where the page itself is shown.
  if (session.is_shown(options.page.out)) {
    bars.end();
  } else {
    bars.begin("writing joints", now.survey.joints.size());
    content.joint_written = [&] { bars.step(); };
  }
  const auto imprint = imprint_for(options.page, now.job.start, logbook, session);
  give_out(
      [&](const auto& take) {
        paper::write_report(content, imprint, take);
        bars.end();
      },
      options.page, session);
  return failure::kDone;
}

}  // namespace cli
