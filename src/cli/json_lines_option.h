#pragma once

namespace CLI {
class App;
}

namespace cli {

// For a command whose list may be long.
void declare_json_lines(CLI::App& command, bool& json_lines);

}  // namespace cli
