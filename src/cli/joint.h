#pragma once

#include <string>
#include <vector>

#include "cli/correction.h"

namespace cli {

class Session;
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

void declare_joint(CLI::App& app, Pending& pending);
[[nodiscard]] int run_joint(const JointOptions& options, const Session& session);

}  // namespace cli
