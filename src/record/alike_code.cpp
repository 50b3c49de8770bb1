#include "record/alike_code.h"

#include "quantity/ascii.h"
#include "record/address.h"

namespace record {

std::string without_noughts(std::string_view code) {
  std::string plain;
  bool in_number = false;  // a digit other than a leading nought has been seen
  const auto folded = folded_code(code);
  for (std::size_t i = 0; i < folded.size(); ++i) {
    const bool is_digit = quantity::is_digit(folded[i]);
    const bool more_follow = i + 1 < folded.size() && quantity::is_digit(folded[i + 1]);
    if (is_digit && !in_number && folded[i] == '0' && more_follow) continue;
    in_number = is_digit;
    plain += folded[i];
  }
  return plain;
}

}  // namespace record
