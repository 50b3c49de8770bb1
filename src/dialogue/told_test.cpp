#include "dialogue/told_test.h"

#include "screen/finding_answer.h"

namespace dialogue {

void tell(const act::TestDone& test, const terminal::Session& session) {
  session.tell(test.done);
  if (test.after == nullptr || session.json()) return;
  session.out() << screen::finding_text(*test.after->joint, test.finding(), test.after->job.start,
                                        session.page());
}

}  // namespace dialogue
