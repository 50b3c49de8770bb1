#include "quantity/force_text.h"

#include <fmt/format.h>

#include <array>

#include "failure/failure.h"
#include "quantity/ascii.h"
#include "quantity/number_text.h"

namespace quantity {
namespace {

constexpr double kMostNewtons = 1e8;

struct ForceUnit {
  std::string_view name;
  Force one;
};

}  // namespace

Force read_force(std::string_view text) {
  static const std::array kUnits = {
      ForceUnit{"N", Force::newtons(1.0)}, ForceUnit{"kN", Force::newtons(1000.0)},
      ForceUnit{"lbf", Force::pounds_force(1.0)}, ForceUnit{"kip", Force::pounds_force(1000.0)}};
  const auto number = read_leading_number(trimmed(text), text);
  for (const auto& unit : kUnits) {
    if (!same_in_any_case(number.rest, unit.name)) continue;
    const auto force = unit.one * number.value;
    if (force > Force::newtons(0.0) && force <= Force::newtons(kMostNewtons)) return force;
  }
  throw failure::InputError(fmt::format(
      "{}: expected a force above zero with its unit, such as 31.2 kN or 7000 lbf", quoted(text)));
}

}  // namespace quantity
