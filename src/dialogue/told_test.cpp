#include "dialogue/told_test.h"

#include "audit/audit.h"
#include "screen/finding_answer.h"
#include "screen/found_answer.h"

namespace dialogue {
void tell(const act::TestDone& test, const terminal::Session& session, bool parts) {
  if (test.after == nullptr || session.json()) {
    session.tell(test.done);
    return;
  }
  const auto& after = *test.after;
  audit::Audit audit;  // what is within asks for no cause
  if (test.finding().verdict != finding::Verdict::Within) {
    audit =
        audit::run_for_joint({after.job, after.survey, session.now()}, after.joint->joint->code);
  }
  session.out() << screen::found_answer(
      *after.joint, test.finding(), audit::likeliest_cause(audit, test.position), session.page());
  session.tell(test.done);
  if (parts) session.out() << screen::finding_text(*after.joint, test.finding(), session.page());
}

}  // namespace dialogue
