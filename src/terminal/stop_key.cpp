#include "terminal/stop_key.h"

#include <unistd.h>

#include <string_view>

namespace terminal {
namespace {

// Calls only what a handler may call.
void say_and_stop(int signal) {
  constexpr std::string_view kSays = "\nboltwitness: stopped; nothing was written\n";
  [[maybe_unused]] const auto written = ::write(STDERR_FILENO, kSays.data(), kSays.size());
  ::raise(signal);  // whose action is what it was by default, once this returns
}

}  // namespace

StopKey::StopKey() {
  struct sigaction action = {};
  action.sa_handler = say_and_stop;
  action.sa_flags = static_cast<int>(SA_RESETHAND);
  ::sigaction(SIGINT, &action, &before_);
}

StopKey::~StopKey() { ::sigaction(SIGINT, &before_, nullptr); }

void StopKey::about_to_write() {
  struct sigaction action = {};
  action.sa_handler = SIG_IGN;
  ::sigaction(SIGINT, &action, nullptr);
}

}  // namespace terminal
