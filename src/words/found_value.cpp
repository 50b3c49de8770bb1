#include "words/found_value.h"

#include "quantity/number_text.h"

namespace words {

std::string found_value(const finding::FoundTorque& torque, quantity::TorqueUnit unit) {
  auto value = quantity::write_rounded(quantity::in_unit(torque.reference(), unit));
  switch (torque.basis) {
    case finding::Basis::LowerBound:
      return "> " + value;
    case finding::Basis::UpperBound:
      return "≤ " + value;
    case finding::Basis::Bracket:
    case finding::Basis::Line:
      break;
  }
  return value;
}

}  // namespace words
