#pragma once

#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace cli {

struct Pending;

struct FleetOptions {
  std::string deed;                // "load" or "ask"
  std::vector<std::string> names;  // logbooks, or the question
  std::string to;
  std::string from;
  std::string machine;
  bool unencrypted = false;
  bool whole = false;
};

// `boltwitness fleet load --to ADDRESS LOGBOOK...` and `boltwitness fleet ask [QUESTION --from
// ADDRESS]`
void declare_fleet(CLI::App& command, Pending& pending);

}  // namespace cli
