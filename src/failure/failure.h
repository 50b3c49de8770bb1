#pragma once

#include <stdexcept>
#include <string>

#include "failure/exit_code.h"

namespace failure {

// Why a command cannot be carried out, in words for the person who typed it: what was found, what
// was expected, what to try. Every error that the program throws on purpose is one, so that a door
// (command line, prompt, table) catches all of them alike.
class Failure : public std::runtime_error {
 public:
  Failure(ExitCode code, const std::string& message) : std::runtime_error(message), code_(code) {}
  [[nodiscard]] ExitCode exit_code() const { return code_; }

 private:
  ExitCode code_;
};

// What was typed, or stands in a file, cannot be taken.
class InputError : public Failure {
 public:
  explicit InputError(const std::string& message) : Failure(kWrongUsage, message) {}
};

// The command line itself is wrong.
class UsageError : public Failure {
 public:
  explicit UsageError(const std::string& message) : Failure(kWrongUsage, message) {}
};

// Understood, but the answer is no: not in the logbook, or against what the logbook says.
class Refusal : public Failure {
 public:
  explicit Refusal(const std::string& message) : Failure(kNotInOrder, message) {}
};

// What was done could not be shown; the message says whether something was written.
class OutputLost : public Failure {
 public:
  explicit OutputLost(const std::string& message) : Failure(kLogbookTrouble, message) {}
};

}  // namespace failure
