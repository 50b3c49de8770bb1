#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "record/address.h"

namespace record {

// The names in a logbook that a spoken line may use.
struct KnownNames {
  std::vector<std::string> joints;
  std::vector<std::string> wrenches;
};

// An address the way it is called across a bench: besides "J06/03" also "J06-03", "J06.3", "J06:3"
// and "J06 3". Where a joint is called J06-03 itself, that joint is meant. InputError as
// read_address.
[[nodiscard]] Address read_spoken_address(std::string_view text, const KnownNames& known);

// A whole found-torque test called across a bench: "J06-03 60s 70s 75s 80o TW2".
struct ShoutedLine {
  Address address;       // of one position
  std::string readings;  // as typed, parted by single blanks; see read_readings
  std::string wrench;    // empty where none was named
};

// Reads an address as above, then readings; a wrench may stand anywhere behind the address, with or
// without "on" or "with" before it. A name at the end that is no part of the readings is taken for
// a wrench that the logbook does not know. Nothing where there is an address alone or no address;
// InputError where the address is not of one position.
[[nodiscard]] std::optional<ShoutedLine> read_shouted_line(std::string_view text,
                                                           const KnownNames& known);

}  // namespace record
