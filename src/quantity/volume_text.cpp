#include "quantity/volume_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "failure/failure.h"
#include "quantity/ascii.h"
#include "quantity/number_text.h"

namespace quantity {
namespace {

constexpr double kUsGallonMillilitres = 3785.411784;

struct VolumeUnit {
  std::string_view name;
  double millilitres;
};

constexpr std::array kVolumeUnits = {
    VolumeUnit{"mL", 1.0},
    VolumeUnit{"cL", 10.0},
    VolumeUnit{"L", 1000.0},
    VolumeUnit{"US qt", kUsGallonMillilitres / 4.0},
    VolumeUnit{"US pt", kUsGallonMillilitres / 8.0},
    VolumeUnit{"US gal", kUsGallonMillilitres},
};

bool is_a_us_unit_alone(std::string_view unit) {
  return std::ranges::any_of(std::array<std::string_view, 3>{"qt", "pt", "gal"},
                             [&](std::string_view name) { return same_in_any_case(unit, name); });
}

}  // namespace

Volume read_volume(std::string_view text) {
  const auto number = read_leading_number(trimmed(text), text);
  const auto unit = std::ranges::find_if(kVolumeUnits, [&](const VolumeUnit& each) {
    return same_in_any_case(number.rest, each.name);
  });
  if (unit == kVolumeUnits.end() && is_a_us_unit_alone(number.rest)) {
    throw failure::InputError(
        fmt::format("{}: the US and the imperial measure of that name differ by a fifth; write US "
                    "{}, or litres",
                    quoted(text), number.rest));
  }
  if (unit == kVolumeUnits.end() || number.value <= 0.0) {
    throw failure::InputError(fmt::format(
        "{}: expected an amount above zero in mL, cL, L, US qt, US pt or US gal, such as \"1.2 L\"",
        quoted(text)));
  }
  return Volume::millilitres(number.value * unit->millilitres);
}

std::string write_rounded(Volume volume) {
  const double millilitres = volume.in_millilitres();
  return millilitres < 1000.0 ? write_rounded(millilitres) + " mL"
                              : write_rounded(millilitres / 1000.0) + " L";
}

}  // namespace quantity
