#include "cli/sequence.h"

#include <CLI/CLI.hpp>

#include "act/chosen_joints.h"
#include "audit/audit.h"
#include "cli/pending.h"
#include "cli/status.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "paper/sequence_page.h"
#include "progress/reassembly.h"
#include "screen/sequence_answer.h"
#include "screen/sequence_explained.h"
#include "terminal/session.h"

namespace cli {
namespace {

plan::ThroughAdapter through_adapter(const SequenceOptions& options) {
  const auto adapter = act::adapter_from(options.adapter);
  if (!adapter) return {};
  if (options.joints.empty()) {
    throw failure::UsageError(
        "name the joints that are reached through the extension: sequence J06 ...");
  }
  return *adapter;
}

}  // namespace

void declare_sequence(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<SequenceOptions>();
  command.add_option("JOINT", options->joints, "Only these joints")->option_text("JOINT ...");
  auto* status = command.add_flag(
      "--status", options->status,
      "What is still open before the job is finished, with the counts; exit code 1 while "
      "anything is");
  status->excludes(command.get_option("JOINT"));
  auto* whole = command.add_flag("--whole", options->whole, "What is done already, too");
  whole->excludes(status);
  auto* explain = command.add_flag(
      "--explain", options->explain,
      "Why the passes are as they are: what later neighbours and settling take, and what "
      "a check round brings back");
  explain->excludes(status);
  declare_adapter_options(command, options->adapter);
  auto* html =
      command.add_flag("--html", options->html,
                       "As a page to print: cells to tick, joint by joint, its order on a map");
  html->group(kPageGroup)->excludes(status)->excludes(whole)->excludes(explain);
  declare_page_options(command, options->page);
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_sequence(*options, session);
    };
  });
}

int run_sequence(const SequenceOptions& options, const terminal::Session& session) {
  if (!options.html && names_page(options.page)) {
    throw failure::UsageError("--out, --page and --replace-file belong to a page; add --html");
  }
  if (options.status) return run_status(session, true);
  const auto adapter = through_adapter(options);
  const auto logbook = session.open_to_read();
  const progress::Reassembly now(logbook.job(), session.day(), adapter);
  const auto& job = now.job;
  const auto& survey = now.survey;
  const auto plan = plan::part_of(now.plan, act::chosen_joints(survey, options.joints));
  if (options.explain) {
    const auto losses = plan::neighbour_losses(plan);
    session.out() << (session.json() ? screen::sequence_explained_json(losses)
                                     : screen::sequence_explained_text(losses, session.page()));
    return failure::kDone;
  }
  const auto audit = audit::run({job, survey, session.done_at(), &now.progress});
  if (options.html) {
    const progress::Progress progress(job, plan);
    give_out(paper::sequence_page({job, survey, plan, progress, audit},
                                  imprint_for(options.page, job.start, logbook, session)),
             options.page, session);
    return failure::kDone;
  }
  const words::BeforeJoints before(job, survey, audit, session.done_at());
  if (session.json()) {
    session.out() << screen::sequence_json(plan, before);
  } else {
    const bool whole = options.whole || !options.joints.empty();
    session.answer_text(
        screen::sequence_text(plan, now.progress, audit, before, whole, session.page()),
        screen::sequence_in_short(plan, now.progress, session.page()));
  }
  return failure::kDone;
}

}  // namespace cli
