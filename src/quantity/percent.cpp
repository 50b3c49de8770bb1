#include "quantity/percent.h"

#include <fmt/format.h>

#include "quantity/number_text.h"

namespace quantity {

Percent read_percent(std::string_view text) {
  const std::string_view bare = trimmed(text);
  const auto number = read_leading_number(after_plus_minus(bare).value_or(bare), text);
  if (number.rest != "%" || number.value <= 0.0 || number.value >= 100.0) {
    throw failure::InputError(
        fmt::format("{}: expected a percentage above 0 and below 100, such as 10%", quoted(text)));
  }
  return Percent::of_hundred(number.value);
}

std::string write_exact(Percent percent) { return write_exact(percent.in_percent()) + "%"; }

}  // namespace quantity
