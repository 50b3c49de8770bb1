#pragma once

#include <string>

namespace CLI {
class App;
}

namespace cli {

struct Pending;

struct ServeCommandOptions {
  bool lan = false;
  bool tls = false;
  int port = 8417;
  bool phones = false;
  std::string forget;
  std::string most;  // for how long at most; empty for until it is ended
};

void declare_serve(CLI::App& command, Pending& pending);

}  // namespace cli
