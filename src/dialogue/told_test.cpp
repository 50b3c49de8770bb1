#include "dialogue/told_test.h"

#include "screen/finding_answer.h"
#include "screen/found_answer.h"

namespace dialogue {

void tell(const act::TestDone& test, const terminal::Session& session, bool parts) {
  if (test.after == nullptr || session.json()) {
    session.tell(test.done);
    return;
  }
  const auto audit = act::audit_of(test, session.now());
  session.out() << screen::found_answer(*test.after->joint, test.finding(),
                                        audit::likeliest_cause(audit, test.position),
                                        session.page());
  session.tell(test.done);
  if (parts)
    session.out() << screen::finding_text(*test.after->joint, test.finding(), session.page());
}

}  // namespace dialogue
