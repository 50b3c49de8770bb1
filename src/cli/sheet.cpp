#include "cli/sheet.h"

#include <CLI/CLI.hpp>

#include "act/chosen_joints.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "paper/sheet_page.h"
#include "terminal/session.h"

namespace cli {

void declare_sheet(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<SheetOptions>();
  command.add_option("JOINT", options->joints, "Only these joints")->option_text("JOINT ...");
  declare_page_options(command, options->page);
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_sheet(*options, session);
    };
  });
}

int run_sheet(const SheetOptions& options, const terminal::Session& session) {
  const auto logbook = session.open_to_read();
  const auto job = act::job_about(logbook, options.joints);
  const auto survey = finding::survey(job);
  give_out(paper::sheet_page(act::joints_to_print(survey, options.joints),
                             imprint_for(options.page, job.start, logbook, session)),
           options.page, session);
  return failure::kDone;
}

}  // namespace cli
