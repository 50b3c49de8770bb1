#include "support/child_program.h"

#include <fcntl.h>
#include <grp.h>
#include <poll.h>
#include <pty.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <stdexcept>
#include <thread>

#include "support/places.h"

namespace {

std::vector<char*> argument_vector(std::vector<std::string>& words) {
  std::vector<char*> pointers;
  for (auto& word : words) pointers.push_back(word.data());
  pointers.push_back(nullptr);
  return pointers;
}

std::vector<std::string> with_program(const std::vector<std::string>& arguments) {
  std::vector<std::string> words = {BOLTWITNESS_PROGRAM};
  words.insert(words.end(), arguments.begin(), arguments.end());
  return words;
}

std::optional<int> wait_for(pid_t process) {
  int status = 0;
  while (::waitpid(process, &status, 0) < 0) {
    if (errno != EINTR) return std::nullopt;
  }
  if (!WIFEXITED(status)) return std::nullopt;
  return WEXITSTATUS(status);
}

// All processes of a build that counts the lines run (BOLTWITNESS_COVERAGE) add to the same files.
// One that is cut off while it does would tear them, so that its lines are counted elsewhere and by
// nobody.
void count_lines_elsewhere() { ::setenv("GCOV_PREFIX", BOLTWITNESS_COUNTS_APART, 1); }

}  // namespace

std::optional<int> run_program(const std::vector<std::string>& arguments,
                               std::optional<std::chrono::microseconds> life) {
  auto words = with_program(arguments);
  const auto pointers = argument_vector(words);
  const pid_t process = ::fork();
  if (process < 0) throw std::runtime_error("no process could be started");
  if (process == 0) {
    const int nowhere = ::open("/dev/null", O_RDWR);
    for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) ::dup2(nowhere, stream);
    if (life) count_lines_elsewhere();
    ::execv(pointers.front(), pointers.data());
    ::_exit(127);
  }
  if (life) {
    std::this_thread::sleep_for(*life);
    ::kill(process, SIGKILL);
  }
  return wait_for(process);
}

namespace {

// Of the process that is about to run the program.
void become(unsigned user) {
  if (user == 0 || ::geteuid() != 0) return;
  if (::setgroups(0, nullptr) != 0 || ::setgid(user) != 0 || ::setuid(user) != 0) {
    ::_exit(127);
  }
}

std::string all_from(int stream) {
  std::string text;
  char buffer[4096];
  for (ssize_t count = 0; (count = ::read(stream, buffer, sizeof buffer)) > 0;) {
    text.append(buffer, static_cast<std::size_t>(count));
  }
  ::close(stream);
  return text;
}

}  // namespace

ProgramOutcome run_program_in(const Room& room, const std::vector<std::string>& arguments) {
  auto words = with_program(arguments);
  const auto pointers = argument_vector(words);
  int answer[2];
  int remarks[2];
  if (::pipe(answer) != 0 || ::pipe(remarks) != 0) throw std::runtime_error("no pipe");
  const pid_t process = ::fork();
  if (process < 0) throw std::runtime_error("no process could be started");
  if (process == 0) {
    ::dup2(::open(room.in, O_RDONLY), STDIN_FILENO);
    ::dup2(room.out == nullptr ? answer[1] : ::open(room.out, O_WRONLY), STDOUT_FILENO);
    ::dup2(remarks[1], STDERR_FILENO);
    ::close(answer[0]);
    ::close(remarks[0]);
    if (room.life || room.largest_file) count_lines_elsewhere();
    if (room.largest_file) {
      const rlimit limit{*room.largest_file, *room.largest_file};
      ::setrlimit(RLIMIT_FSIZE, &limit);
    }
    for (const auto& [name, value] : room.environment) ::setenv(name.c_str(), value.c_str(), 1);
    // The way to it may be closed to others.
    const int program = ::open(pointers.front(), O_RDONLY | O_CLOEXEC);
    become(room.as_user);
    ::fexecve(program, pointers.data(), environ);
    ::_exit(127);
  }
  ::close(answer[1]);
  ::close(remarks[1]);
  if (room.life) {
    std::this_thread::sleep_for(*room.life);
    ::kill(process, SIGKILL);
  }
  ProgramOutcome outcome;
  outcome.out = all_from(answer[0]);
  outcome.err = all_from(remarks[0]);
  outcome.code = wait_for(process);
  return outcome;
}

TerminalProgram::TerminalProgram(const std::vector<std::string>& arguments, unsigned short columns,
                                 const char* terminal, const char* locale) {
  auto words = with_program(arguments);
  const auto pointers = argument_vector(words);
  const winsize size{24, columns, 0, 0};
  process_ = ::forkpty(&terminal_, nullptr, nullptr, &size);
  if (process_ < 0) throw std::runtime_error("no pseudo-terminal could be opened");
  if (process_ == 0) {
    ::unsetenv("COLUMNS");
    ::setenv("TERM", terminal, 1);
    ::setenv("LC_ALL", locale, 1);
    ::execv(pointers.front(), pointers.data());
    ::_exit(127);
  }
}

TerminalProgram::~TerminalProgram() {
  hang_up();
  if (process_ > 0) {
    ::kill(process_, SIGKILL);
    wait_for(process_);
  }
}

void TerminalProgram::press(const std::string& keys) {
  if (::write(terminal_, keys.data(), keys.size()) != static_cast<ssize_t>(keys.size())) {
    throw std::runtime_error("the keys did not reach the terminal");
  }
}

bool TerminalProgram::read_more(std::chrono::steady_clock::time_point until) {
  const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(
      until - std::chrono::steady_clock::now());
  pollfd waiting{terminal_, POLLIN, 0};
  if (left.count() <= 0 || ::poll(&waiting, 1, static_cast<int>(left.count())) <= 0) return false;
  char buffer[4096];
  const ssize_t count = ::read(terminal_, buffer, sizeof buffer);
  if (count <= 0) return false;
  screen_.append(buffer, static_cast<std::size_t>(count));
  return true;
}

bool TerminalProgram::shows(const std::string& text) {
  const auto until = std::chrono::steady_clock::now() + std::chrono::seconds(30);
  while (true) {
    if (const auto at = screen_.find(text, seen_); at != std::string::npos) {
      seen_ = at + text.size();
      return true;
    }
    if (!read_more(until)) return false;
  }
}

bool TerminalProgram::shows_slowed(const std::string& text) {
  using std::chrono::milliseconds;
  const auto until = std::chrono::steady_clock::now() + std::chrono::seconds(60);
  while (std::chrono::steady_clock::now() < until) {
    std::this_thread::sleep_for(milliseconds(2));
    ::kill(process_, SIGSTOP);
    (void)read_more(std::chrono::steady_clock::now() + milliseconds(200));
    ::kill(process_, SIGCONT);
    if (const auto at = screen_.find(text, seen_); at != std::string::npos) {
      seen_ = at + text.size();
      return true;
    }
  }
  return false;
}

bool TerminalProgram::asks(const std::string& prompt) {
  if (!shows(prompt)) return false;
  const auto until = std::chrono::steady_clock::now() + std::chrono::seconds(30);
  while ((settings().c_lflag & ICANON) != 0) {
    if (std::chrono::steady_clock::now() > until) return false;
    std::this_thread::sleep_for(std::chrono::milliseconds(1));
  }
  return true;
}

termios TerminalProgram::settings() const {
  termios settings{};
  ::tcgetattr(terminal_, &settings);
  return settings;
}

void TerminalProgram::kill() { ::kill(process_, SIGKILL); }

void TerminalProgram::hang_up() {
  if (terminal_ >= 0) ::close(terminal_);
  terminal_ = -1;
}

std::optional<int> TerminalProgram::ended() {
  while (terminal_ >= 0 && read_more(std::chrono::steady_clock::now() + std::chrono::seconds(30))) {
  }
  const auto code = wait_for(process_);
  process_ = -1;
  return code;
}
