#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "logbook/lines_progress.h"
#include "terminal/progress_bar.h"

namespace terminal {

// How far a command has come that goes through all lines more than once: one bar after the other in
// the same place, from a second after this was made. It has to outlive what of_lines returns.
class ProgressBars {
 public:
  explicit ProgressBars(const Session& session) : session_(session), begun_(session.now()) {}
  ProgressBars(const ProgressBars&) = delete;
  ProgressBars& operator=(const ProgressBars&) = delete;

  // A bar of so many steps in place of the one before.
  void begin(const std::string& what, std::size_t total) {
    bar_.emplace(session_, what, total, begun_);
  }
  void step() {
    if (bar_) bar_->step();
  }

  // Before anything is printed.
  void end() { bar_.reset(); }

  // A bar whenever work on lines begins; `what` in a word or two.
  [[nodiscard]] logbook::LinesProgress of_lines(const std::string& what) {
    return {[this, what](std::size_t steps) { begin(what, steps); }, [this] { step(); }};
  }

 private:
  const Session& session_;
  record::Moment begun_;
  std::optional<ProgressBar> bar_;
};

}  // namespace terminal
