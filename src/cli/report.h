#pragma once

#include "cli/page_file.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

struct ReportOptions {
  PageOptions page;
  bool no_photographs = false;
};

void declare_report(CLI::App& command, Pending& pending);
[[nodiscard]] int run_report(const ReportOptions& options, const terminal::Session& session);

}  // namespace cli
