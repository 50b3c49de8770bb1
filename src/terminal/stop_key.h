#pragma once

#include <csignal>

namespace terminal {

// While it lives, Ctrl-C ends the program as ever (a shell tells 130), but not without a sentence:
// that nothing was written. From `about_to_write` on it is waited for until that is done, so that
// the sentence is never wrong. One at a time.
class StopKey {
 public:
  StopKey();
  ~StopKey();
  StopKey(const StopKey&) = delete;
  StopKey& operator=(const StopKey&) = delete;

  void about_to_write();

 private:
  struct sigaction before_ = {};
};

}  // namespace terminal
