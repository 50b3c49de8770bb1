#pragma once

#include <string>
#include <vector>

#include "finding/survey.h"

namespace words {

// Where no wrench is at hand for a test: those of the logbook, and what they have to cover.
struct WrenchesForTest {
  std::vector<std::string> covering;  // in calibration, or with none on record, which it says
  std::vector<std::string> run_out;   // that cover it too: "TW3 (out of calibration since ...)"
  std::vector<std::string> others;    // with their scales: "TW1 (5..50 N·m)"
  std::string range;                  // "72 N·m to 88 N·m"; empty where nothing is expected
  std::vector<std::string> fit;       // the names of `covering` alone
};

[[nodiscard]] WrenchesForTest wrenches_to_choose_from(const record::Job& job,
                                                      const finding::JointState& joint,
                                                      int position, record::Day day);

}  // namespace words
