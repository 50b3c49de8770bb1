#include "terminal/pager.h"

#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <iostream>
#include <string_view>

namespace terminal {
namespace {

constexpr int kNotFound = 127;  // of a shell that has no such program

// While the pager runs it alone answers to Ctrl-C, and it may end before it has taken all.
class LeftToPager {
 public:
  LeftToPager() {
    for (auto& each : kept_) each.before = std::signal(each.signal, SIG_IGN);
  }
  ~LeftToPager() {
    for (const auto& each : kept_) std::signal(each.signal, each.before);
  }
  LeftToPager(const LeftToPager&) = delete;
  LeftToPager& operator=(const LeftToPager&) = delete;

 private:
  struct Kept {
    int signal;
    void (*before)(int) = SIG_DFL;
  };
  Kept kept_[3] = {{SIGINT}, {SIGQUIT}, {SIGPIPE}};
};

// False where the shell has no such program.
bool is_shown_by(const char* pager, const std::string& text) {
  std::cout.flush();
  const LeftToPager left;
  FILE* pipe = ::popen(pager, "w");
  if (pipe == nullptr) return false;
  (void)std::fwrite(text.data(), 1, text.size(), pipe);
  const int status = ::pclose(pipe);
  return !WIFEXITED(status) || WEXITSTATUS(status) != kNotFound;
}

}  // namespace

void show_in_pager(const std::string& text) {
  ::setenv("LESS", "-R", 0);  // what is bold is shown so
  const char* named = std::getenv("PAGER");
  const std::string pager = named == nullptr
                                ? "if command -v less >/dev/null; then exec less; else "
                                  "exec more; fi"
                                : named;
  if (!pager.empty() && is_shown_by(pager.c_str(), text)) return;
  std::cout << text;
}

}  // namespace terminal
