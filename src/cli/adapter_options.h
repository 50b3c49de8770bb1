#pragma once

#include "act/adapter_words.h"

namespace CLI {
class App;
}

namespace cli {

// Binds --extension, --wrench-length and --adapter-angle.
void declare_adapter_options(CLI::App& command, act::AdapterWords& words);

}  // namespace cli
