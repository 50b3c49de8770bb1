#pragma once

#include <string>

#include "cli/correction.h"
#include "record/wrench.h"

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

struct WrenchOptions {
  std::string name;
  std::string range;
  std::string graduation;
  std::string kind;
  std::string accuracy;
  std::string serial;
  std::string calibrated;
  std::string valid;
  std::string found_off;
  CorrectionOptions correction;
};

// The wrench as given; what is not given stays as its earlier entry has it, where there is one. An
// entry of this day. OptionError for what cannot be taken, is missing, or says nothing new.
[[nodiscard]] record::Wrench wrench_from(const WrenchOptions& options,
                                         const record::Wrench* earlier, record::Day day);

void declare_wrench(CLI::App& app, Pending& pending);
[[nodiscard]] int run_wrench(const WrenchOptions& options, const terminal::Session& session);

}  // namespace cli
