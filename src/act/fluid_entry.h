#pragma once

#include <string>

#include "act/correction.h"
#include "act/done.h"

namespace act {

// What was drained or filled, as typed; one of the two amounts is given.
struct FluidWords {
  std::string fluid;
  std::string drained;
  std::string filled;
  std::string note;
  Correction correction;
};

// Records it in a line of its own, which tells the balance after it. UsageError where no fluid is
// named, InputError for what cannot be taken.
Done record_fluid(logbook::Logbook& logbook, const logbook::Writer& writer,
                  const FluidWords& words);

}  // namespace act
