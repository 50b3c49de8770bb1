#include "cli/compare.h"

#include <CLI/CLI.hpp>

#include "cli/chosen_joints.h"
#include "cli/exit_code.h"
#include "cli/pending.h"
#include "cli/session.h"
#include "report/compare_report.h"

namespace cli {

void declare_compare(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<CompareOptions>();
  auto* command = app.add_subcommand("compare", "Found torque against specification");
  command->add_option("JOINTS", options->joints, "Only these joints")->option_text("JOINT ...");
  command->add_flag("--all-units", options->all_units, "N·m, ft·lbf and in·lbf side by side");
  command->callback([options, &pending] {
    pending.run = [options](const Session& session) { return run_compare(*options, session); };
  });
}

int run_compare(const CompareOptions& options, const Session& session) {
  const auto job = session.open_to_read().job();
  const auto survey = finding::survey(job);
  const auto joints = chosen_joints(survey, options.joints);
  session.out() << (session.json() ? report::compare_json(joints)
                                   : report::compare_text(job.start, joints, options.all_units,
                                                          session.page()));
  return kDone;
}

}  // namespace cli
