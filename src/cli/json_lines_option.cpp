#include "cli/json_lines_option.h"

#include <CLI/CLI.hpp>

namespace cli {

void declare_json_lines(CLI::App& command, bool& json_lines) {
  command.add_flag("--json-lines", json_lines,
                   "As JSON Lines: each line of the logbook an object in a line of its own");
}

}  // namespace cli
