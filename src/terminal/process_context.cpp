#include "terminal/process_context.h"

#include <pwd.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <cstdlib>
#include <iostream>
#include <string>
#include <thread>

#include "terminal/device.h"
#include "terminal/keyboard.h"
#include "terminal/line_editor.h"
#include "terminal/pager.h"

namespace terminal {
namespace {

namespace fs = std::filesystem;

std::optional<std::string> environment(const char* name) {
  const char* value = std::getenv(name);
  if (value == nullptr) return std::nullopt;
  return value;
}

std::string login_name() {
  if (const passwd* user = ::getpwuid(::getuid()); user != nullptr) return user->pw_name;
  return environment("LOGNAME").value_or("");
}

// Where programs keep what is theirs and not the user's work (XDG base directories).
fs::path state_folder() {
  if (const auto state = environment("XDG_STATE_HOME"); state && !state->empty()) {
    return fs::path(*state) / "boltwitness";
  }
  return fs::path(environment("HOME").value_or("/nonexistent")) / ".local/state/boltwitness";
}

// COLUMNS, else the terminal's own, else 80; kept to what can be laid out sensibly.
std::size_t width_of_output(bool terminal) {
  std::size_t width = 0;
  if (const auto columns = environment("COLUMNS")) {
    std::from_chars(columns->data(), columns->data() + columns->size(), width);
  }
  winsize size{};
  if (width == 0 && terminal && ::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0) {
    width = size.ws_col;
  }
  return width == 0 ? 80 : std::clamp<std::size_t>(width, 40, 240);
}

std::size_t height_of_output(bool terminal) {
  winsize size{};
  return terminal && ::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 ? size.ws_row : 0;
}

// The editor is made at the first prompt: most commands ask nothing.
std::optional<std::string> answer_at_terminal(const std::string& prompt, std::string_view keys) {
  static LineEditor editor;
  return editor.answer(prompt, keys);
}

std::string read_input(std::size_t most) {
  std::string all;
  constexpr std::size_t kPiece = std::size_t{1} << 16;
  while (std::cin && all.size() < most) {
    const auto size = all.size();
    const auto wanted = std::min(kPiece, most - size);
    all.resize(size + wanted);
    std::cin.read(all.data() + size, static_cast<std::streamsize>(wanted));
    all.resize(size + static_cast<std::size_t>(std::cin.gcount()));
  }
  return all;
}

}  // namespace

Context process_context() {
  const bool terminal = ::isatty(STDOUT_FILENO) != 0;
  const bool keyboard = ::isatty(STDIN_FILENO) != 0;
  std::error_code problem;
  return {std::cout,
          std::cerr,
          [] {
            return std::chrono::floor<std::chrono::milliseconds>(std::chrono::system_clock::now());
          },
          environment,
          [] { return device_id(state_folder()); },
          login_name(),
          fs::current_path(problem),
          width_of_output(terminal),
          terminal,
          read_key,
          read_line,
          keyboard,
          [](std::chrono::milliseconds span) { std::this_thread::sleep_for(span); },
          keyboard ? answer_at_terminal : nullptr,
          read_input,
          ::isatty(STDERR_FILENO) != 0,
          height_of_output(terminal),
          logbook::Waiting::kUsual,
          nullptr,
          terminal ? show_in_pager : nullptr};
}

}  // namespace terminal
