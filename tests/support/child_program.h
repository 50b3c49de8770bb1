#pragma once

#include <sys/types.h>
#include <termios.h>

#include <chrono>
#include <map>
#include <optional>
#include <string>
#include <vector>

// The built program as a process of its own, for what cannot be tried inside this one: being killed
// and sitting at a terminal.

// Runs it to its end, or kills it with SIGKILL after `life`. The exit code; nothing where it was
// killed.
std::optional<int> run_program(const std::vector<std::string>& arguments,
                               std::optional<std::chrono::microseconds> life = std::nullopt);

// What it printed, and its exit code; nothing where a signal ended it.
struct ProgramOutcome {
  std::optional<int> code;
  std::string out;
  std::string err;
};

// Where there is little room: no file may grow beyond so many bytes (nothing: as it is). `out` is a
// file that takes its answer, such as /dev/full; else the answer is caught. `in` is a file that is
// typed at it, where it asks. It is killed (SIGKILL) after `life`, where one is given.
// `environment` comes to that of the tests. `as_user`: by the user of this number where root runs
// the tests, whom no permission holds back; else, and for 0, by who does.
struct Room {
  std::optional<std::size_t> largest_file = std::nullopt;
  const char* out = nullptr;
  const char* in = "/dev/null";
  std::optional<std::chrono::microseconds> life = std::nullopt;
  std::map<std::string, std::string> environment = {};
  unsigned as_user = 0;
};

// Runs it to its end and catches what it prints, of which there may be some 60 kB.
ProgramOutcome run_program_in(const Room& room, const std::vector<std::string>& arguments);

// The program at a pseudo-terminal, as a person has it.
class TerminalProgram {
 public:
  explicit TerminalProgram(const std::vector<std::string>& arguments, unsigned short columns = 80,
                           const char* terminal = "xterm", const char* locale = "C.UTF-8");
  ~TerminalProgram();
  TerminalProgram(const TerminalProgram&) = delete;
  TerminalProgram& operator=(const TerminalProgram&) = delete;

  // Presses keys.
  void press(const std::string& keys);

  // Waits until the screen, since the last call, shows this text; false after half a minute or when
  // the program has ended without it.
  bool shows(const std::string& text);

  // The same while the program is let run for two milliseconds five times a second: what it
  // shows of long work is seen however fast it is.
  bool shows_slowed(const std::string& text);

  // The same for a prompt, and waits until keys come one by one, which is a moment after it.
  bool asks(const std::string& prompt = "> ");

  // All that was shown so far.
  [[nodiscard]] const std::string& screen() const { return screen_; }

  // The terminal's settings now.
  [[nodiscard]] termios settings() const;

  // Kills it, as nothing can be prepared for.
  void kill();

  // Takes the terminal away, as a closed window does.
  void hang_up();

  // Waits for its end: the exit code, nothing where a signal ended it.
  std::optional<int> ended();

 private:
  bool read_more(std::chrono::steady_clock::time_point until);

  pid_t process_ = -1;
  int terminal_ = -1;
  std::string screen_;
  std::size_t seen_ = 0;
};
