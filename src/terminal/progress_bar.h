#pragma once

#include <cstddef>
#include <string>

#include "terminal/session.h"

namespace terminal {

// How far a long piece of work has come, on stderr where that is a terminal, once it has taken more
// than a second; 60 columns at most. Gone again when it goes out of scope.
class ProgressBar {
 public:
  // `total` steps of what is named in a word or two, the last of work that began then or now.
  ProgressBar(const Session& session, std::string what, std::size_t total);
  ProgressBar(const Session& session, std::string what, std::size_t total, record::Moment begun);
  ~ProgressBar();
  ProgressBar(const ProgressBar&) = delete;
  ProgressBar& operator=(const ProgressBar&) = delete;

  // One step more is done; those beyond `total` are not counted.
  void step();

 private:
  void show(std::size_t percent);

  const Session& session_;
  std::string what_;
  std::size_t total_;
  std::size_t done_ = 0;
  bool is_shown_ = false;
  record::Moment begun_;
};

}  // namespace terminal
