#pragma once

namespace CLI {
class App;
class Option;
}  // namespace CLI

namespace terminal {
class Session;
}

namespace cli {

// What belongs to that list stands under in a help.
inline constexpr const char* kListGroup = "The list of them";

// A command that enters something under a name, and alone lists what was entered: every option of
// it needs the name.
void name_first(CLI::App& command, CLI::Option& name);

// The joints that were entered; cut unless `whole`.
[[nodiscard]] int list_joints(const terminal::Session& session, bool whole);

}  // namespace cli
