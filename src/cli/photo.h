#pragma once

#include <string>

#include "act/photograph_entry.h"

namespace CLI {
class App;
}

namespace terminal {
class Session;
}

namespace cli {

struct Pending;

struct PhotoOptions {
  act::PhotographWords words;  // `where` may be the number of a line: one to be given out
  std::string file;
  std::string to;
};

void declare_photo(CLI::App& command, Pending& pending);
[[nodiscard]] int run_photo(const PhotoOptions& options, const terminal::Session& session);

}  // namespace cli
