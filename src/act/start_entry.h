#pragma once

#include <string>

#include "act/done.h"
#include "logbook/recording.h"

namespace act {

// A new logbook, as typed.
struct StartWords {
  std::string file;
  std::string machine;
  std::string unit = "N·m";
  std::string tolerance = "10%";
  std::string method_error = "2%";
  std::string angle_window;  // empty where the assumed one is to hold
};

// Starts the logbook with its first line; a name without an ending gets .bolts, by which a logbook
// is found. InputError for what cannot be taken, LogbookError where the file is there already.
Done start(const logbook::Writer& writer, const StartWords& words);

}  // namespace act
