#pragma once

#include <string>
#include <vector>

#include "screen/bolt_checks.h"

namespace CLI {
class App;
}

namespace cli {

// What else may be asked about a bolt beside its torque.
struct BoltCheckOptions {
  std::string into;
  std::string engaged;
  std::string seat;
  std::string face;
  std::string hole;
  std::string washer;
  std::string washer_thickness;
  std::string length;
  std::string turn;
  std::string loosened;
  std::vector<std::string> loads;
  std::vector<std::string> stretches;
};

// Binds the options, grouped by what they answer.
// What options about the tapped part, and about what the head bears on, stand under in a help.
inline constexpr const char* kScrewedIntoGroup = "Screwed into a part";
inline constexpr const char* kUnderHeadGroup = "Under the head";

void declare_bolt_checks(CLI::App& command, BoltCheckOptions& options);

// What was asked, answered. UsageError where one option needs another that is missing.
[[nodiscard]] screen::BoltChecks checks_from(const BoltCheckOptions& options,
                                             const fastener::BoltQuestion& question,
                                             const fastener::BoltAssessment& bolt,
                                             const std::optional<quantity::StatedTorque>& torque);

}  // namespace cli
