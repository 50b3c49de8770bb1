#include "quantity/angle_text.h"

#include <fmt/format.h>

#include <array>

#include "quantity/ascii.h"
#include "quantity/number_text.h"

namespace quantity {
namespace {

struct AngleWord {
  std::string_view word;
  double degrees;
};

// Longer words first, so that "degrees" is not read as "deg" with "rees" left over.
constexpr std::array kWords = {
    AngleWord{"degrees", 1.0}, AngleWord{"degree", 1.0}, AngleWord{"deg.", 1.0},
    AngleWord{"deg", 1.0},     AngleWord{"°", 1.0},      AngleWord{"º", 1.0},
    AngleWord{"turns", 360.0}, AngleWord{"turn", 360.0},
};

}  // namespace

std::optional<LeadingAngle> read_leading_angle(std::string_view text, std::string_view whole) {
  auto number = read_leading_number(text, whole);
  double divisor = 1.0;
  if (number.rest.starts_with('/')) {
    const auto below = read_leading_number(number.rest.substr(1), whole);
    if (below.value == 0.0) {
      throw failure::InputError(fmt::format("{}: a fraction over zero is no angle", quoted(whole)));
    }
    divisor = below.value;
    number.rest = below.rest;
  }
  for (const auto& [word, degrees] : kWords) {
    if (starts_with_in_any_case(number.rest, word)) {
      // Divided last, so that 1/6 turn is 60° and not the nearest thing to it.
      return LeadingAngle{Angle::degrees(number.value * degrees / divisor),
                          trimmed(number.rest.substr(word.size()))};
    }
  }
  return std::nullopt;
}

Angle read_angle(std::string_view text) {
  const auto leading = read_leading_angle(text, text);
  if (!leading || !leading->rest.empty()) {
    throw failure::InputError(
        fmt::format("{}: expected an angle such as 60° or 1/4 turn", quoted(text)));
  }
  return leading->angle;
}

Angle read_turn(std::string_view text) {
  const auto typed = trimmed(text);
  const bool is_bare =
      !typed.empty() && typed.find_first_not_of("0123456789.,") == std::string_view::npos;
  return read_angle(is_bare ? std::string(typed) + "°" : std::string(typed));
}

std::string write_exact(Angle angle) { return write_exact(angle.in_degrees()) + "°"; }

}  // namespace quantity
