#pragma once

#include <string>
#include <vector>

#include "act/correction.h"
#include "act/done.h"
#include "record/wrench.h"

namespace act {

// A torque wrench, or what is new about one, as typed.
struct WrenchWords {
  std::string name;
  std::string range;
  std::string graduation;
  std::string kind;
  std::string accuracy;
  std::string serial;
  std::string calibrated;
  std::string valid;
  std::string found_off;
  Correction correction;
};

// The wrench as given; what is not given stays as its earlier entry has it, where there is one, and
// what a calibration found only where that is of the same day. An
// entry of this day. OptionError for what cannot be taken, is missing, or says nothing new.
[[nodiscard]] record::Wrench wrench_from(const WrenchWords& words, const record::Wrench* earlier,
                                         record::Day day);

// What is remarkable about a wrench that is entered for this day: that it is out of calibration.
[[nodiscard]] std::vector<std::string> remarks_on(const record::Wrench& wrench, record::Day day);

// Records it in a line of its own.
Done enter_wrench(logbook::Logbook& logbook, const logbook::Writer& writer,
                  const WrenchWords& words);

}  // namespace act
