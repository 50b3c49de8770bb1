#pragma once

#include <optional>
#include <string>

#include "act/finding_entry.h"
#include "record/shouted_line.h"

namespace act {

// What was read at one more pull of a fastener. It goes on with the test that is under way there,
// or begins one.
struct NextPull {
  TestedFastener tested;
  // How it was started; else as the pull before it, setting on setting where it is the first.
  std::optional<record::Restart> restart;
  record::SettingReading reading;
  std::string typed;
};

// Records it in one line: the pull alone while the mark is short; where it was reached, the finding
// with all readings of the test. InputError where it does not follow the pulls before it, or they
// are on another wrench; Refusal where it is dated before them, before its bolt came out or was
// last tightened, or is a pull alone and dated before the end of the last test there.
TestDone record_pull(logbook::Logbook& logbook, const logbook::Writer& writer,
                     const NextPull& next);

// Refusal or InputError where the wrench must not be set to this for the next pull of the test: it
// would pass the ceiling, or does not follow the pulls before it. A pull that was made is recorded
// whatever it was; one to come must not harm the bolt.
void check_may_be_set(const finding::JointState& joint, record::Measured test,
                      const record::Wrench& wrench, double setting);

// Enters the test that is under way as it stands, the mark not reached. Refusal where none is,
// or one of its pulls is dated later.
TestDone record_test_so_far(logbook::Logbook& logbook, const logbook::Writer& writer,
                            const record::Address& address);

// Records a whole test that was called out. Without a restart it is that of the pulls under way,
// setting on setting where there are none. Refusal where it leaves out pulls that are under way at
// the position, since they would count no longer.
TestDone record_shouted(logbook::Logbook& logbook, const logbook::Writer& writer,
                        const record::ShoutedLine& line, std::optional<record::Restart> restart);

}  // namespace act
