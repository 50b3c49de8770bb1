#include "act/known_codes.h"

#include <algorithm>

#include "record/address.h"
#include "record/alike_code.h"

namespace act {

KnownCodes::KnownCodes(const std::vector<std::string>& codes) {
  codes_.reserve(codes.size());
  by_number_.reserve(codes.size());
  for (const auto& code : codes) add(code);
}

void KnownCodes::add(const std::string& code) {
  by_number_[record::without_noughts(code)].push_back(codes_.size());
  codes_.push_back(code);
}

const std::vector<std::size_t>& KnownCodes::alike(std::string_view code) const {
  static const std::vector<std::size_t> none;
  const auto found = by_number_.find(record::without_noughts(code));
  return found == by_number_.end() ? none : found->second;
}

bool KnownCodes::contains(std::string_view code) const {
  return std::ranges::any_of(
      alike(code), [&](std::size_t place) { return record::same_code(codes_[place], code); });
}

std::string KnownCodes::differs_in_noughts(std::string_view code) const {
  for (const auto place : alike(code)) {
    if (!record::same_code(codes_[place], code)) return codes_[place];
  }
  return {};
}

}  // namespace act
