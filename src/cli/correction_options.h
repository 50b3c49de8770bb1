#pragma once

#include "act/correction.h"

namespace CLI {
class App;
}

namespace cli {

// Binds --replace LINE and --why TEXT.
void declare_correction(CLI::App& command, act::Correction& correction);

}  // namespace cli
