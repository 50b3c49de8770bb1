#pragma once

#include "act/correction.h"

namespace CLI {
class App;
}

namespace cli {

// Binds --replace LINE, --why TEXT and --without OPTION ....
void declare_correction(CLI::App& command, act::Correction& correction);

}  // namespace cli
