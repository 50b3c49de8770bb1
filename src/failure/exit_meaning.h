#pragma once

#include <string_view>

#include "failure/exit_code.h"

namespace failure {

struct ExitMeaning {
  ExitCode code;
  std::string_view means;
};

// What each exit code tells, as the manual has it (page scripts).
inline constexpr ExitMeaning kExitMeanings[] = {
    {kDone, "done"},
    {kNotInOrder,
     "understood, and the answer is no: a hold is open, something is due, not found, refused"},
    {kWrongUsage, "wrong usage or bad input; nothing was written"},
    {kLogbookTrouble,
     "the logbook could not be opened, read or written, or the answer not written out; nothing was "
     "lost"},
    {kOurFault, "a fault of this program"},
};

}  // namespace failure
