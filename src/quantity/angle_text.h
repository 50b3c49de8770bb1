#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "quantity/angle.h"

namespace quantity {

// A number of degrees or turns at the front of a text, and what follows it.
struct LeadingAngle {
  Angle angle;
  std::string_view rest;
};

// Reads "60°", "60 deg", "60 Degrees", "1/4 turn", "0.5 turns"; nothing where the unit is missing,
// since a bare number may be anything. failure::InputError for a number that is none. No sign is
// read here.
[[nodiscard]] std::optional<LeadingAngle> read_leading_angle(std::string_view text,
                                                             std::string_view whole);

// The whole text is one such angle; failure::InputError otherwise.
[[nodiscard]] Angle read_angle(std::string_view text);

// How far something turned: the same, and degrees where no unit is given, since nothing else is
// read off a dial. InputError as read_angle.
[[nodiscard]] Angle read_turn(std::string_view text);

// "60°": reads back to the same angle.
[[nodiscard]] std::string write_exact(Angle angle);

}  // namespace quantity
