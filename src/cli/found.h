#pragma once

#include <string>
#include <vector>

#include "cli/adapter_options.h"
#include "cli/correction.h"
#include "record/joint.h"
#include "record/measured.h"
#include "record/wrench.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

struct FoundOptions {
  std::string address;
  std::vector<std::string> readings;
  std::string wrench;
  std::string radius;
  std::string restart;
  std::string neighbours;
  std::string prevailing;
  AdapterOptions adapter;
  bool next = false;
  CorrectionOptions correction;
};

// The finding that the options describe. OptionError where one of them cannot be taken, where a
// setting is not on the wrench's scale, or where the running torque leaves nothing to find.
[[nodiscard]] record::Measured finding_from(const FoundOptions& options, const record::Joint& joint,
                                            int position, const record::Wrench& wrench);

void declare_found(CLI::App& app, Pending& pending);
[[nodiscard]] int run_found(const FoundOptions& options, const terminal::Session& session);

}  // namespace cli
