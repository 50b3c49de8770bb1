#include "cli/labels.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "act/chosen_joints.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "paper/labels_page.h"
#include "quantity/number_text.h"
#include "terminal/session.h"

namespace cli {

void declare_labels(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<LabelsOptions>();
  command.add_option("JOINT", options->joints, "Only these joints")->option_text("JOINT ...");
  command.add_flag("--each", options->each, "One for each fastener instead");
  command
      .add_option("--link", options->link,
                  "Where serve answers: a phone's camera then opens the position from its code")
      ->option_text("ADDRESS");
  declare_page_options(command, options->page);
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_labels(*options, session);
    };
  });
}

int run_labels(const LabelsOptions& options, const terminal::Session& session) {
  if (!options.link.empty() && !options.link.starts_with("http://") &&
      !options.link.starts_with("https://")) {
    throw failure::UsageError(fmt::format(
        "--link {}: expected the address that serve prints, such as http://192.168.1.5:8417/",
        quantity::quoted(options.link)));
  }
  const auto logbook = session.open_to_read();
  const auto job = act::job_about(logbook, options.joints);
  const auto survey = finding::survey(job);
  give_out(paper::labels_page(act::joints_to_print(survey, options.joints),
                              options.each ? paper::LabelFor::Position : paper::LabelFor::Bag,
                              imprint_for(options.page, job.start, logbook, session), options.link),
           options.page, session);
  return failure::kDone;
}

}  // namespace cli
