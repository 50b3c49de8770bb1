#pragma once

#include <string>

#include "quantity/angle.h"
#include "quantity/percent.h"
#include "quantity/torque_unit.h"
#include "record/in_job.h"

namespace record {

// The first line of a logbook: the machine and the settings that hold for the whole file.
struct LogbookStart {
  std::string machine;
  quantity::TorqueUnit unit = quantity::TorqueUnit::NewtonMetre;  // shown first
  // Where a source gives no tolerance. ±10 % is the standard tolerance of a US Army manual
  // (TM 9-2320-362-14&P: standard torque tolerance unless stated), shown as assumed.
  quantity::Percent default_tolerance = quantity::Percent::of_hundred(10.0);
  // What returning to the mark adds to the uncertainty of a found torque: reading the line,
  // stopping late, restart friction. Standard uncertainty as a share of the torque. No published
  // figure was found; 2 % is this program's own allowance and every finding shows it as such.
  quantity::Percent method_error = quantity::Percent::of_hundred(2.0);
  std::string tolerance_typed = {};  // as entered; empty where an earlier version wrote it
  std::string method_typed = {};
  // How far to either side an angle pass may stray where its source prints no window, shown as
  // assumed. ±5°: the one maker's procedure seen that prints a window has a turn of 90° as 85 to
  // 95° (cylinder head, 2001); for other turns common practice, no source.
  quantity::Angle angle_window = quantity::Angle::degrees(5.0);
  std::string angle_typed = {};  // empty where nobody set it: the default above
};
template <>
struct InJob<LogbookStart> {
  LogbookStart start;  // the first line, which is never struck
};

}  // namespace record
