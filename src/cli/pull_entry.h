#pragma once

#include <string>

#include "cli/finding_entry.h"
#include "record/shouted_line.h"
#include "terminal/session.h"

namespace cli {

// What was read at one more pull of a fastener. It goes on with the test that is under way there,
// or begins one.
struct NextPull {
  TestedFastener tested;
  record::Restart restart = record::Restart::Stacked;  // of a test that begins with it
  record::SettingReading reading;
  std::string typed;
};

// Records it in one line, durable when this returns, and tells that line: the pull alone while the
// mark is short; where it was reached, the finding with all readings of the test, and what that
// comes to. InputError where it does not follow the pulls before it, or they are on another wrench.
record::Stamp record_pull(const terminal::Session& session, const NextPull& next);

// Enters the test that is under way as it stands, the mark not reached. Refusal where none is.
record::Stamp record_test_so_far(const terminal::Session& session, const record::Address& address);

// Records a whole test that was called out, as `found` does. Refusal where it leaves out pulls that
// are under way at the position, since they would count no longer.
record::Stamp record_shouted(const terminal::Session& session, const record::ShoutedLine& line,
                             record::Restart restart);

}  // namespace cli
