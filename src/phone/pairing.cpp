#include "phone/pairing.h"

#include <string_view>

#include "logbook/secret.h"

namespace phone {
namespace {

// 30 of them, so that a code has almost 40 bits; without O, 0, I, 1, L and U.
constexpr std::string_view kSigns = "23456789ABCDEFGHJKMNPQRSTVWXYZ";
constexpr std::size_t kCodeSigns = 8;
constexpr int kMostWrong = 10;
constexpr std::size_t kMostAddresses = 1'000;

// What counts of a code as it was typed.
std::string signs_of(std::string_view typed) {
  std::string signs;
  for (const char c : typed) {
    const char upper = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    if (kSigns.find(upper) != kSigns.npos) signs += upper;
  }
  return signs;
}

}  // namespace

PairingCode::PairingCode() { renew(); }

void PairingCode::renew() {
  code_.clear();
  for (std::size_t i = 0; i < kCodeSigns; ++i) {
    if (i == kCodeSigns / 2) code_ += '-';
    code_ += kSigns[logbook::random_below(static_cast<unsigned>(kSigns.size()))];
  }
  wrong_ = 0;
}

bool PairingCode::take(std::string typed) {
  if (logbook::is_same_secret(signs_of(typed), signs_of(code_))) {
    renew();
    return true;
  }
  if (++wrong_ >= kMostWrong) renew();
  return false;
}

bool RateLimit::take(const std::string& from, Clock::time_point now) {
  if (taken_.size() > kMostAddresses) taken_.clear();
  auto& taken = taken_[from];
  while (!taken.empty() && taken.front() + span_ <= now) taken.pop_front();
  if (taken.size() >= most_) return false;
  taken.push_back(now);
  return true;
}

}  // namespace phone
