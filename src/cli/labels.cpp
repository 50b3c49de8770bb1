#include "cli/labels.h"

#include <CLI/CLI.hpp>

#include "act/chosen_joints.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "paper/labels_page.h"
#include "terminal/session.h"

namespace cli {

void declare_labels(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<LabelsOptions>();
  auto* command = app.add_subcommand(
      "labels", "Labels for bags to print, with a QR code of the address, one for each bag");
  command->add_option("JOINTS", options->joints, "Only these joints")->option_text("JOINT ...");
  command->add_flag("--each", options->each, "One for each fastener instead");
  declare_page_options(*command, options->page);
  command->callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_labels(*options, session);
    };
  });
}

int run_labels(const LabelsOptions& options, const terminal::Session& session) {
  const auto logbook = session.open_to_read();
  const auto job = act::job_about(logbook, options.joints);
  const auto survey = finding::survey(job);
  give_out(paper::labels_page(act::joints_to_print(survey, options.joints),
                              options.each ? paper::LabelFor::Position : paper::LabelFor::Bag,
                              imprint_for(options.page, job.start, logbook, session)),
           options.page, session);
  return failure::kDone;
}

}  // namespace cli
