#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/correction.h"
#include "record/joint.h"
#include "record/specified.h"

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

struct JointOptions {
  std::string code;
  std::string holds;
  std::string size;
  std::string length;
  std::string grade;
  std::string count;
  std::string layout;
  bool one_time = false;
  bool critical = false;
  std::vector<std::string> after;
  std::vector<std::string> covers;
  bool bench = false;
  std::string final_when;
  std::string order;
  std::string passes;
  std::vector<std::string> rechecks;
  std::string spec;
  std::string source;
  std::string condition;
  bool really = false;
  CorrectionOptions correction;
};

// True where they describe the fasteners and not only what is specified for them.
[[nodiscard]] bool describes_joint(const JointOptions& options);

// The joint that the options describe. OptionError for what cannot be taken or is missing.
[[nodiscard]] record::Joint joint_from(const JointOptions& options, const std::string& code);

// The specification they carry, for these positions or, with none, the whole joint; nothing where
// they carry none. OptionError as above.
[[nodiscard]] std::optional<record::Specified> specified_from(const JointOptions& options,
                                                              const std::string& code,
                                                              const std::vector<int>& positions);

void declare_joint(CLI::App& app, Pending& pending);
[[nodiscard]] int run_joint(const JointOptions& options, const terminal::Session& session);

}  // namespace cli
