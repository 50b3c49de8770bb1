#include "cli/process.h"

#include <csignal>

#include "cli/run.h"
#include "terminal/process_context.h"

namespace cli {

int run_process(int argc, char** argv, const Network& network) {
  // A file that may not grow any further (ulimit -f) is to fail as a full disk does, which is told.
  std::signal(SIGXFSZ, SIG_IGN);
  // Who reads no further (| head) ends it without a word, whatever it was started by ignores.
  std::signal(SIGPIPE, SIG_DFL);
  auto context = terminal::process_context();
  return run({argv + (argc > 0 ? 1 : 0), argv + argc}, context, network);
}

}  // namespace cli
