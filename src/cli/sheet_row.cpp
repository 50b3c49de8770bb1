#include "cli/sheet_row.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "cli/option_error.h"
#include "quantity/ascii.h"
#include "quantity/number_text.h"

namespace cli {
namespace {

constexpr char kBetweenParts = ';';

}  // namespace

std::string SheetRow::operator[](std::string_view column) const {
  const auto at = columns_.find(column);
  if (at == columns_.end()) return {};
  std::string text = cells_[at->second].text;
  std::ranges::replace(text, '\n', ' ');
  std::erase(text, '\r');
  return text;
}

std::vector<std::string> SheetRow::list(std::string_view column) const {
  const auto cell = (*this)[column];
  std::vector<std::string> parts;
  for (std::string_view rest = quantity::trimmed(cell); !rest.empty();) {
    const auto part = rest.substr(0, rest.find(kBetweenParts));
    parts.emplace_back(quantity::trimmed(part));
    rest.remove_prefix(std::min(rest.size(), part.size() + 1));
  }
  return parts;
}

bool SheetRow::yes(std::string_view column) const {
  const auto cell = (*this)[column];
  const auto word = quantity::trimmed(cell);
  if (quantity::same_in_any_case(word, "yes")) return true;
  if (word.empty() || quantity::same_in_any_case(word, "no")) return false;
  throw OptionError(column, fmt::format("{}: expected yes, or nothing", quantity::quoted(word)));
}

std::string SheetRow::with_unit(std::string_view column, std::string_view unit_column) const {
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

}  // namespace cli
