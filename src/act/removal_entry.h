#pragma once

#include <string>

#include "act/correction.h"
#include "act/done.h"
#include "record/entry.h"
#include "record/removal.h"

namespace act {

// Fasteners that came out, as typed.
struct RemovalWords {
  std::string address;
  std::string broke;
  bool no_mark = false;
  std::string damaged_thread;
  std::string bag;
  std::string note;
  std::string length;
  std::string size;
  std::string grade;
  Correction correction;
};

// Records fasteners as they come out in a line of its own. What replaces an earlier line keeps of
// it what is not stated anew, its time included. Refusal where a hold point stands before the
// joint, where there is no such joint or one of the positions is out already; InputError for what
// cannot be taken and where the joint does not have the positions.
Done record_removal(logbook::Logbook& logbook, const logbook::Writer& writer,
                    const RemovalWords& words);
Done record_removal(logbook::Logbook& logbook, const logbook::Writer& writer,
                    record::Removal removal, const Correction& correction = {});

// Records a removal anew where it stands, in place of the line that said less of it: a bag or note
// that was thought of later. Refusal, with the command that does it, where that line is about other
// positions too.
Done say_more(logbook::Logbook& logbook, const logbook::Writer& writer,
              const record::Entry<record::Removal>& before, const record::Removal& now);

}  // namespace act
