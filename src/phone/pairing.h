#pragma once

#include <chrono>
#include <deque>
#include <map>
#include <string>

namespace phone {

// The code that is shown on the terminal and typed or scanned on a phone, once: it is another one
// after each phone, and after ten wrong ones.
class PairingCode {
 public:
  using Clock = std::chrono::steady_clock;

  PairingCode();

  // "K7RM-4WQX": of letters and digits that are not taken for each other.
  [[nodiscard]] const std::string& shown() const { return code_; }

  // True where it is this one, whatever the case and whether parted; it is used up then.
  [[nodiscard]] bool take(std::string typed);

 private:
  void renew();

  std::string code_;
  int wrong_ = 0;
};

// So many in so long a time from one address, and no more.
class RateLimit {
 public:
  using Clock = std::chrono::steady_clock;

  RateLimit(std::size_t most, std::chrono::milliseconds span) : most_(most), span_(span) {}

  // False where it is one too many.
  [[nodiscard]] bool take(const std::string& from, Clock::time_point now = Clock::now());

 private:
  std::size_t most_;
  std::chrono::milliseconds span_;
  std::map<std::string, std::deque<Clock::time_point>> taken_;
};

}  // namespace phone
