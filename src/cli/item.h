#pragma once

#include "act/item_entry.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

void declare_item(CLI::App& command, Pending& pending);
[[nodiscard]] int run_item(const act::ItemWords& words, const terminal::Session& session);

}  // namespace cli
