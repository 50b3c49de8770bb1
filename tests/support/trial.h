#pragma once

#include <map>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "record/moment.h"
#include "support/temporary_folder.h"

// What a command printed and returned.
struct Outcome {
  int code = 0;
  std::string out;
  std::string err;

  // What stands on stdout and on stderr, as if its lines had no end: where one breaks is for the
  // width to say.
  [[nodiscard]] std::string told() const;
  [[nodiscard]] std::string said() const;

  // The answer to a command with --json; who reads it includes <nlohmann/json.hpp>.
  [[nodiscard]] nlohmann::json json() const;
};

// A trial of commands: a folder of its own, a clock that moves one second a command, a
// person (KB), a device, no terminal. Commands run inside this process.
class Trial {
 public:
  Trial();

  // Runs one command line; words are parted by blanks, a word in single quotes may hold blanks.
  Outcome run(const std::string& command_line);

  // The same, and the test fails at once where the exit code is not 0.
  Outcome done(const std::string& command_line);

  [[nodiscard]] const TemporaryFolder& folder() const { return folder_; }

  record::Moment now;
  std::map<std::string, std::string> environment;
  std::string login = "KB";
  std::string device = "00000000-0000-4000-8000-000000000001";
  std::size_t width = 80;
  std::size_t height = 0;  // rows of the terminal; 0 for none
  bool terminal = false;
  bool keyboard = false;        // somebody sits at the input
  std::string typed;            // what the next commands read from it, line by line
  bool folder_is_gone = false;  // the current folder was removed
  bool disk_is_full = false;    // nothing can be written to the output
  // How long to wait for whoever holds the logbook.
  std::chrono::milliseconds patience = std::chrono::minutes(1);

 private:
  std::optional<std::string> next_line();

  TemporaryFolder folder_;
};

// Columns that the widest line of it takes on a terminal.
std::size_t widest_line(const std::string& text);

// The words of a command line, as Trial::run parts them.
std::vector<std::string> words_of(const std::string& command_line);
