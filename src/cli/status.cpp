#include "cli/status.h"

#include <CLI/CLI.hpp>
#include <optional>

#include "audit/audit.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "progress/open_list.h"
#include "progress/reassembly.h"
#include "screen/status_answer.h"
#include "terminal/session.h"

namespace cli {

void declare_status(CLI::App& app, Pending& pending) {
  auto whole = std::make_shared<bool>(false);
  auto* command = app.add_subcommand(
      "status",
      "What is open, the next step, and how far each joint is; so does boltwitness alone");
  command->add_flag("--whole", *whole, "With no list cut");
  command->callback([whole, &pending] {
    pending.run = [whole](const terminal::Session& session) { return run_status(session, *whole); };
  });
}

int run_status(const terminal::Session& session, bool whole) {
  std::optional<progress::Reassembly> now;
  std::optional<progress::SurveyedJob> entered;  // with the circle in it
  std::optional<plan::PlanCycle> circle;
  try {
    now.emplace(session.open_to_read().job(), session.day());
  } catch (const plan::PlanCycle& cycle) {
    circle.emplace(cycle);
    entered.emplace(session.open_to_read().job());
    now.emplace(progress::without_precedences(entered->job), session.day());
  }
  const auto open = progress::open_list(*now, session.done_at());
  const auto audit = circle
                         ? audit::run({entered->job, entered->survey, session.done_at(), nullptr,
                                       circle->circle(), circle->mend()})
                         : audit::run({now->job, now->survey, session.done_at(), &now->progress});
  const screen::JobStatus status{*now, open, audit, circle ? &*circle : nullptr, session.done_at()};
  if (session.json()) {
    session.out() << screen::status_json(status);
  } else {
    session.answer_text(screen::status_text(status, whole, session.prose_page()),
                        screen::status_in_short(status, session.prose_page()));
  }
  return status.is_finished() ? failure::kDone : failure::kNotInOrder;
}

}  // namespace cli
