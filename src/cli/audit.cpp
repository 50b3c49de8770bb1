#include "cli/audit.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "audit/audit.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "screen/audit_answer.h"
#include "terminal/progress_bars.h"
#include "terminal/session.h"
#include "words/joint_heading.h"

namespace cli {

void declare_audit(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<AuditOptions>();
  command.add_flag("--all", options->all, "With what is settled: decision, reason, who and when");
  command.add_flag("--why", options->why, "All causes that the logbook speaks for, not only one");
  command.add_flag("--whole", options->whole, "With no list cut");
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_audit(*options, session);
    };
  });
}

int run_audit(const AuditOptions& options, const terminal::Session& session) {
  terminal::ProgressBars bars(session);
  auto logbook = session.open_to_read();
  logbook.show_progress(bars.of_lines("reading"));
  const auto job = logbook.job();
  const auto survey = finding::survey(job);
  bars.begin("looking at joints", survey.joints.size());
  audit::Case subject{job, survey, session.done_at()};
  subject.joint_done = [&] { bars.step(); };
  const auto result = audit::run(subject);
  bars.end();
  const auto whole = options.whole ? std::string()
                                   : fmt::format("audit{}{} --whole", options.all ? " --all" : "",
                                                 options.why ? " --why" : "");
  if (session.json()) {
    session.out() << screen::audit_json(result);
  } else {
    if (survey.joints.empty()) session.out() << words::no_joints(session.page());
    if (!survey.joints.empty() || !result.deviations.empty()) {
      session.answer_text(
          screen::audit_text(
              result, {.settled_too = options.all, .all_causes = options.why, .whole = whole},
              session.prose_page()),
          screen::audit_in_short(result, session.prose_page()));
    }
  }
  return result.in_order() ? failure::kDone : failure::kNotInOrder;
}

}  // namespace cli
