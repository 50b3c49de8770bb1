#pragma once

#include <string>

#include "finding/found_torque.h"

// A finding and a wrench for tests of the maths: invented readings.
inline record::Measured measured_with(const std::string& readings) {
  record::Measured measured;
  measured.joint = "J01";
  measured.position = 1;
  measured.wrench = "TW1";
  measured.readings = record::read_readings(readings, std::nullopt);
  return measured;
}

inline record::Wrench wrench_20_to_200() {
  record::Wrench wrench;
  wrench.name = "TW1";
  wrench.scale = {20.0, 200.0, quantity::TorqueUnit::NewtonMetre};
  wrench.graduation = 1.0;
  wrench.calibrated = record::read_day("2026-03-02");
  return wrench;
}

// An M12 of unknown length: half a pen line is 1.92965° at its head (0.35 mm at 18 mm/√3), and a
// degree counts with 4.29464 % of the torque (1.5 to 8 %).
inline finding::TestedBolt bolt_m12() {
  finding::TestedBolt bolt;
  bolt.thread = fastener::Thread::metric(12.0, 1.75);
  return bolt;
}

inline finding::FoundTorque found_with(const std::string& readings, double method_percent = 2.0) {
  return finding::found_torque(measured_with(readings), wrench_20_to_200(),
                               quantity::Percent::of_hundred(method_percent), bolt_m12());
}
