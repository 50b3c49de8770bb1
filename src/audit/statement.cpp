#include "audit/statement.h"

#include "quantity/angle_text.h"
#include "quantity/number_text.h"
#include "quantity/stated_torque.h"
#include "record/address.h"
#include "record/specification.h"

namespace audit {
namespace {

std::string kept(std::string_view text) { return std::string(text) + '|'; }

std::string kept(quantity::Torque torque) {
  return fmt::format("{:.4g} Nm|", torque.in_newton_metres());
}

std::string bare(quantity::Torque torque, quantity::TorqueUnit unit) {
  return quantity::write_rounded(quantity::in_unit(torque, unit));
}

}  // namespace

namespace as {

Statement wording(std::string_view text) { return {std::string(text), ""}; }

Statement name(std::string_view text) { return {std::string(text), kept(text)}; }

Statement line(const record::Stamp& stamp) { return {std::to_string(stamp.line), ""}; }

Statement count(std::size_t number) { return name(std::to_string(number)); }

Statement count(int number) { return name(std::to_string(number)); }

Statement figure(double value, std::string shown) {
  return {std::move(shown), fmt::format("{:.4g}|", value)};
}

Statement numbers(const std::vector<int>& positions) {
  return name(record::write_positions(positions));
}

Statement day(record::Day value) { return name(record::write_day(value)); }

Statement moment(record::Moment value) {
  return {record::write_local(value), kept(record::write_utc(value))};
}

Statement torque(quantity::Torque value, quantity::TorqueUnit unit) {
  return {quantity::write_rounded(value, unit), kept(value)};
}

Statement torque(const quantity::StatedTorque& stated) {
  return {quantity::write_exact(stated), kept(stated.torque())};
}

Statement angle(quantity::Angle value) {
  return {quantity::write_exact(value), fmt::format("{:.4g} deg|", value.in_degrees())};
}

Statement percent(quantity::Percent value) {
  return {quantity::write_exact(value), fmt::format("{:.4g} %|", value.in_percent())};
}

Statement procedure(const record::Specification& asked) { return name(record::write_exact(asked)); }

Statement window(const record::ToleranceWindow& limits, quantity::TorqueUnit unit) {
  if (limits.low && limits.high) {
    return says("{} to {}{}", Statement{bare(*limits.low, unit), kept(*limits.low)},
                torque(*limits.high, unit), wording(limits.assumed ? " (tolerance assumed)" : ""));
  }
  return limits.low ? says("at least {}", torque(*limits.low, unit))
                    : says("at most {}", torque(*limits.high, unit));
}

Statement found(const finding::FoundTorque& value, quantity::TorqueUnit unit) {
  if (value.best) {
    const auto expanded = value.budget.expanded();
    return {fmt::format("{} ±{} {}",
                        quantity::write_to_place(quantity::in_unit(*value.best, unit),
                                                 finding::last_place(value, unit)),
                        quantity::write_uncertainty(quantity::in_unit(expanded, unit)),
                        quantity::name_of(unit)),
            kept(*value.best) + kept(expanded),
            fmt::format("{} ±{}", bare(*value.best, unit),
                        quantity::write_rounded(expanded, unit, quantity::kUncertaintyDigits))};
  }
  return value.basis == finding::Basis::LowerBound
             ? says("above {}", torque(*value.low, unit))
             : says("at or below {}", torque(*value.high, unit));
}

}  // namespace as

Statement joined(const std::vector<Statement>& statements, std::string_view between) {
  Statement all;
  bool differs = false;
  for (const auto& statement : statements) {
    if (!all.text.empty()) {
      all.text += between;
      all.old_text += between;
    }
    all.text += statement.text;
    all.old_text += statement.as_of_old();
    all.figures += statement.figures;
    differs = differs || !statement.old_text.empty();
  }
  if (!differs) all.old_text.clear();
  return all;
}

}  // namespace audit
