#include "quantity/length_text.h"

#include <fmt/format.h>

#include <array>
#include <optional>

#include "failure/failure.h"
#include "quantity/ascii.h"
#include "quantity/number_text.h"

namespace quantity {
namespace {

constexpr double kLongestMillimetres = 10'000.0;

struct LengthUnit {
  std::string_view name;
  double millimetres;
};

constexpr std::array kLengthUnits = {
    LengthUnit{"mm", 1.0},  LengthUnit{"cm", 10.0},     LengthUnit{"m", 1000.0},
    LengthUnit{"in", 25.4}, LengthUnit{"inch", 25.4},   LengthUnit{"inches", 25.4},
    LengthUnit{"\"", 25.4}, LengthUnit{"\u2033", 25.4}, LengthUnit{"\u201D", 25.4},
};

std::optional<double> millimetres_per(std::string_view unit) {
  for (const auto& [name, millimetres] : kLengthUnits) {
    if (same_in_any_case(unit, name)) return millimetres;
  }
  return std::nullopt;
}

// "3/8 in" and "1 1/2 in", as drills and bolts are sold; nothing for a text without a fraction.
std::optional<Length> read_fraction(std::string_view text) {
  const auto slash = text.find('/');
  if (slash == std::string_view::npos) return std::nullopt;
  std::string_view top = trimmed(text.substr(0, slash));
  double whole = 0.0;
  if (const auto gap = top.find_first_of(" -"); gap != std::string_view::npos) {
    whole = read_count(top.substr(0, gap), 1000);
    top = top.substr(gap + 1);
  }
  const auto bottom = read_leading_number(text.substr(slash + 1), text);
  const auto unit = millimetres_per(bottom.rest);
  if (!unit) return std::nullopt;
  const double parts = read_count(top, 1000);
  const double parts_per_unit = read_count(bottom.digits, 64);
  return Length::millimetres((whole + parts / parts_per_unit) * *unit);
}

Length checked(Length length, std::string_view text) {
  if (length.in_millimetres() > kLongestMillimetres) {
    throw failure::InputError(
        fmt::format("{}: expected a length of at most 10 m; check the number and its "
                    "unit",
                    quoted(text)));
  }
  return length;
}

}  // namespace

Length read_length(std::string_view text) {
  const std::string_view bare = trimmed(text);
  if (const auto fraction = read_fraction(bare)) return checked(*fraction, text);
  const auto number = read_leading_number(bare, text);
  const auto unit = millimetres_per(number.rest);
  if (!unit || number.value <= 0.0) {
    throw failure::InputError(fmt::format(
        "{}: expected a length above zero with its unit, such as 90mm or 1.5in", quoted(text)));
  }
  return checked(Length::millimetres(number.value * *unit), text);
}

std::string write_exact(Length length) { return write_exact(length.in_millimetres()) + " mm"; }

}  // namespace quantity
