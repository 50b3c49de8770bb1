#include "tables/table_row.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <optional>

#include "act/option_error.h"
#include "quantity/ascii.h"
#include "quantity/length_text.h"
#include "quantity/number_text.h"
#include "quantity/torque_unit.h"

namespace tables {
namespace {

constexpr char kBetweenParts = ';';

std::optional<quantity::Length> one_of(std::string_view unit) {
  try {
    return quantity::read_length(fmt::format("1 {}", unit));
  } catch (const failure::InputError&) {
    return std::nullopt;
  }
}

bool are_different_units(std::string_view a, std::string_view b) {
  const auto torque_a = quantity::read_torque_unit(a);
  const auto torque_b = quantity::read_torque_unit(b);
  if (torque_a || torque_b) return torque_a && torque_b && torque_a != torque_b;
  const auto length_a = one_of(a);
  const auto length_b = one_of(b);
  return length_a && length_b && !quantity::is_same(*length_a, *length_b);
}

// The first unit behind a number in the cell that is another one than this; empty where there is
// none. What is no unit, such as "loosen", is for the reader of the cell to judge.
std::string_view other_unit_in(std::string_view cell, std::string_view unit) {
  constexpr std::string_view kDigits = "0123456789";
  constexpr std::string_view kEndsUnit = "0123456789,;()+/%~";
  while (true) {
    const auto number = cell.find_first_of(kDigits);
    if (number == std::string_view::npos) return {};
    cell.remove_prefix(std::min(cell.size(), cell.find_first_not_of("0123456789.,", number)));
    auto behind = cell.substr(0, cell.find_first_of(kEndsUnit));
    behind = behind.substr(0, behind.find("±"));
    // Words may follow the unit, and the hyphen of a range.
    while (!(behind = quantity::trimmed(behind)).empty()) {
      if (are_different_units(behind, unit)) return behind;
      const auto cut = behind.find_last_of(" -.");
      behind = behind.substr(0, cut == std::string_view::npos ? 0 : cut);
    }
  }
}

}  // namespace

std::string TableRow::operator[](std::string_view column) const {
  const auto at = columns_.find(column);
  if (at == columns_.end()) return {};
  std::string text = cells_[at->second].text;
  std::ranges::replace(text, '\n', ' ');
  std::erase(text, '\r');
  return text;
}

std::vector<std::string> TableRow::list(std::string_view column) const {
  const auto cell = (*this)[column];
  std::vector<std::string> parts;
  for (std::string_view rest = quantity::trimmed(cell); !rest.empty();) {
    const auto part = rest.substr(0, rest.find(kBetweenParts));
    parts.emplace_back(quantity::trimmed(part));
    rest.remove_prefix(std::min(rest.size(), part.size() + 1));
  }
  return parts;
}

bool TableRow::yes(std::string_view column) const {
  const auto cell = (*this)[column];
  const auto word = quantity::trimmed(cell);
  if (quantity::same_in_any_case(word, "yes")) return true;
  if (word.empty() || quantity::same_in_any_case(word, "no")) return false;
  throw act::OptionError(column,
                         fmt::format("{}: expected yes, or nothing", quantity::quoted(word)));
}

std::string TableRow::with_unit(std::string_view column, std::string_view unit_column) const {
  const auto cell = (*this)[column];
  const auto unit = (*this)[unit_column];
  if (const auto other = other_unit_in(cell, quantity::trimmed(unit)); !other.empty()) {
    throw act::OptionError(
        column, fmt::format("{}: says {}, but the column {} says {}; expected the same unit "
                            "in both, or the column left empty",
                            quantity::quoted(cell), quantity::quoted(other), unit_column,
                            quantity::quoted(unit)));
  }
  return with_scale_unit(column, unit_column);
}

std::string TableRow::with_scale_unit(std::string_view column, std::string_view unit_column) const {
  auto cell = (*this)[column];
  const auto unit = (*this)[unit_column];
  if (quantity::trimmed(cell).empty() || quantity::trimmed(unit).empty()) return cell;
  if (std::ranges::any_of(cell, quantity::is_letter)) return cell;
  return fmt::format("{} {}", cell, unit);
}

std::string yes_or_nothing(bool yes) { return yes ? "yes" : ""; }

std::string listed(const std::vector<std::string>& parts) {
  return fmt::format("{}", fmt::join(parts, "; "));
}

}  // namespace tables
