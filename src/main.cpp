#include <csignal>
#include <iostream>

#include "cli/run.h"
#include "terminal/process_context.h"

int main(int argc, char** argv) {
  // A file that may not grow any further (ulimit -f) is to fail as a full disk does, which is told.
  std::signal(SIGXFSZ, SIG_IGN);
  auto context = terminal::process_context();
  return cli::run({argv + (argc > 0 ? 1 : 0), argv + argc}, context);
}
