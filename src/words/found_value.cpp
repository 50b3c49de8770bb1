#include "words/found_value.h"

#include <fmt/format.h>

#include <cmath>
#include <optional>
#include <utility>

#include "quantity/number_text.h"

namespace words {
namespace {

using quantity::in_unit;
using quantity::TorqueUnit;

// The estimate to its place; a bound is a setting, or comes from one through an adapter.
std::string number(const finding::FoundTorque& torque, TorqueUnit unit) {
  return torque.best ? quantity::write_to_place(in_unit(*torque.best, unit),
                                                finding::last_place(torque, unit))
                     : quantity::write_rounded(in_unit(torque.reference(), unit));
}

// With so many digits that they differ, where the two do.
std::string against(double end, double limit) {
  constexpr int kMostDigits = 17;
  for (int digits = 4; digits <= kMostDigits; ++digits) {
    auto of_end = quantity::write_rounded(end, digits);
    auto of_limit = quantity::write_rounded(limit, digits);
    if (of_end != of_limit) return fmt::format("{} against the limit of {}", of_end, of_limit);
  }
  return fmt::format("it ends on the limit of {}", quantity::write_rounded(limit));
}

}  // namespace

std::string found_value(const finding::FoundTorque& torque, TorqueUnit unit) {
  switch (torque.basis) {
    case finding::Basis::LowerBound:
      return "> " + number(torque, unit);
    case finding::Basis::UpperBound:
      return "≤ " + number(torque, unit);
    case finding::Basis::Bracket:
    case finding::Basis::Line:
      break;
  }
  return number(torque, unit);
}

std::string uncertainty_value(const finding::FoundTorque& torque, TorqueUnit unit) {
  return quantity::write_uncertainty(in_unit(torque.budget.expanded(), unit));
}

std::string found_words(const finding::FoundTorque& torque, TorqueUnit unit) {
  switch (torque.basis) {
    case finding::Basis::LowerBound:
      return "above " + number(torque, unit);
    case finding::Basis::UpperBound:
      return "at or below " + number(torque, unit);
    case finding::Basis::Bracket:
    case finding::Basis::Line:
      break;
  }
  return fmt::format("{} ±{}", number(torque, unit), uncertainty_value(torque, unit));
}

std::string found_side_by_side(const finding::FoundTorque& torque, TorqueUnit first) {
  std::string text = fmt::format("{} {}", number(torque, first), quantity::name_of(first));
  for (const auto unit : quantity::kSideBySideUnits) {
    if (unit == first) continue;
    text += fmt::format(" = {} {}", number(torque, unit), quantity::name_of(unit));
  }
  return text;
}

std::string closer_than_shown(const finding::Finding& finding, TorqueUnit unit) {
  const auto& torque = finding.torque;
  if (!torque.best || !finding.window) return {};
  const double shown = quantity::read_number(number(torque, unit));
  const double shown_expanded = quantity::read_number(uncertainty_value(torque, unit));
  const finding::Uncertain as_shown{torque.basis, quantity::torque_of(shown, unit),
                                    quantity::torque_of(shown_expanded, unit)};
  if (finding::judge(as_shown, *finding.window) == finding.verdict ||
      finding.verdict == finding::Verdict::NotComparable) {
    return {};
  }
  const auto expanded = torque.budget.expanded();
  std::optional<std::pair<quantity::Torque, quantity::Torque>> nearest;  // end and limit
  const auto gap = [](const auto& pair) {
    return std::fabs((pair.first - pair.second).in_newton_metres());
  };
  for (const auto& limit : {finding.window->low, finding.window->high}) {
    for (const auto end : {*torque.best - expanded, *torque.best + expanded}) {
      if (!limit) continue;
      const std::pair pair{end, *limit};
      if (!nearest || gap(pair) < gap(*nearest)) nearest = pair;
    }
  }
  return fmt::format("closer than the digits show, {} {}",
                     against(in_unit(nearest->first, unit), in_unit(nearest->second, unit)),
                     quantity::name_of(unit));
}

std::string tightened_words(const finding::TightenedTo& tightened, TorqueUnit unit) {
  return quantity::write_with_uncertainty(in_unit(tightened.best, unit),
                                          in_unit(tightened.expanded, unit));
}

}  // namespace words
