#include "words/found_value.h"

#include <fmt/format.h>

#include "quantity/number_text.h"

namespace words {
namespace {

using quantity::in_unit;
using quantity::TorqueUnit;

std::string to_its_place(quantity::Torque torque, quantity::Torque expanded, TorqueUnit unit) {
  return quantity::write_to_place(in_unit(torque, unit),
                                  quantity::last_place_of(in_unit(expanded, unit)));
}

// The estimate to its place; a bound is a setting, or comes from one through an adapter.
std::string number(const finding::FoundTorque& torque, TorqueUnit unit) {
  return torque.best ? to_its_place(*torque.best, torque.budget.expanded(), unit)
                     : quantity::write_rounded(in_unit(torque.reference(), unit));
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
  const auto expanded = torque.budget.expanded();
  return to_its_place(expanded, expanded, unit);
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
  return quantity::write_with_uncertainty(in_unit(*torque.best, unit),
                                          in_unit(torque.budget.expanded(), unit));
}

std::string found_side_by_side(const finding::FoundTorque& torque, TorqueUnit first) {
  std::string text = fmt::format("{} {}", number(torque, first), quantity::name_of(first));
  for (const auto unit : quantity::kSideBySideUnits) {
    if (unit == first) continue;
    text += fmt::format(" = {} {}", number(torque, unit), quantity::name_of(unit));
  }
  return text;
}

std::string tightened_words(const finding::TightenedTo& tightened, TorqueUnit unit) {
  return quantity::write_with_uncertainty(in_unit(tightened.best, unit),
                                          in_unit(tightened.expanded, unit));
}

}  // namespace words
