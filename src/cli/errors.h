#pragma once

#include <stdexcept>

namespace cli {

// The command line itself is wrong.
class UsageError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

// Understood, but the answer is no: not in the logbook, or against what the logbook says.
class Refusal : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

// What was done could not be shown; the message says whether something was written.
class OutputLost : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

}  // namespace cli
