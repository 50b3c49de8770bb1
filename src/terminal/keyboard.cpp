#include "terminal/keyboard.h"

#include <termios.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <iostream>

namespace terminal {
namespace {

constexpr char kCtrlC = 3;
constexpr char kCtrlD = 4;

termios terminal_before{};

// Leaves the terminal as it was and lets the signal do what it always does.
void restore_and_raise(int signal) {
  ::tcsetattr(STDIN_FILENO, TCSANOW, &terminal_before);
  std::signal(signal, SIG_DFL);
  std::raise(signal);
}

// While it lives, keys come one by one, unechoed, and Ctrl-C is a key.
class SingleKeys {
 public:
  SingleKeys() {
    if (::tcgetattr(STDIN_FILENO, &terminal_before) != 0) return;
    termios single = terminal_before;
    single.c_lflag &= ~static_cast<tcflag_t>(ICANON | ECHO | ISIG);
    single.c_cc[VMIN] = 1;
    single.c_cc[VTIME] = 0;
    for (const int signal : {SIGTERM, SIGHUP}) std::signal(signal, restore_and_raise);
    ::tcsetattr(STDIN_FILENO, TCSANOW, &single);
    is_set_ = true;
  }
  ~SingleKeys() {
    if (!is_set_) return;
    ::tcsetattr(STDIN_FILENO, TCSANOW, &terminal_before);
    for (const int signal : {SIGTERM, SIGHUP}) std::signal(signal, SIG_DFL);
  }
  SingleKeys(const SingleKeys&) = delete;
  SingleKeys& operator=(const SingleKeys&) = delete;

 private:
  bool is_set_ = false;
};

std::optional<char> key_pressed() {
  const SingleKeys single;
  char key = 0;
  ssize_t count = 0;
  do {
    count = ::read(STDIN_FILENO, &key, 1);
  } while (count < 0 && errno == EINTR);
  if (count <= 0 || key == kCtrlC || key == kCtrlD) return std::nullopt;
  return key;
}

}  // namespace

std::optional<char> read_key() {
  if (::isatty(STDIN_FILENO) != 0) return key_pressed();
  const auto line = read_line();
  if (!line) return std::nullopt;
  return line->empty() ? '\n' : line->front();
}

std::optional<std::string> read_line() {
  std::string line;
  if (!std::getline(std::cin, line)) return std::nullopt;
  if (line.ends_with('\r')) line.pop_back();
  return line;
}

}  // namespace terminal
