#include "record/running_amount.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "failure/failure.h"
#include "quantity/ascii.h"
#include "quantity/number_text.h"

namespace record {
namespace {

struct CounterForm {
  std::string_view text;
  Counter counter;
};

constexpr std::array kForms = {
    CounterForm{"running h", Counter::RunningHours},
    CounterForm{"running hours", Counter::RunningHours},
    CounterForm{"km", Counter::Kilometres},
    CounterForm{"mi", Counter::Miles},
    CounterForm{"miles", Counter::Miles},
};

constexpr double kKilometresPerMile = 1.609344;

}  // namespace

std::optional<RunningAmount> running_amount_in(std::string_view text) {
  const auto number = quantity::read_leading_number(quantity::trimmed(text), text);
  const auto form = std::ranges::find_if(kForms, [&](const CounterForm& each) {
    return quantity::same_in_any_case(number.rest, each.text);
  });
  if (form == kForms.end()) return std::nullopt;
  if (number.value > kMostRunningAmount) {
    throw failure::InputError(fmt::format("{}: expected at most {} {}; check the number",
                                          quantity::quoted(text),
                                          quantity::write_exact(kMostRunningAmount), form->text));
  }
  return RunningAmount{number.value, form->counter};
}

RunningAmount read_running_amount(std::string_view text) {
  if (const auto amount = running_amount_in(text)) return *amount;
  throw failure::InputError(
      fmt::format("{}: expected what the machine's counter shows, such as 1240 running h, 500 km "
                  "or 300 mi",
                  quantity::quoted(text)));
}

std::optional<RunningAmount> on_counter(const RunningAmount& amount, Counter counter) {
  if (amount.counter == counter) return amount;
  if (amount.counter == Counter::RunningHours || counter == Counter::RunningHours) {
    return std::nullopt;
  }
  const bool from_miles = amount.counter == Counter::Miles;
  return RunningAmount{
      from_miles ? amount.amount * kKilometresPerMile : amount.amount / kKilometresPerMile,
      counter};
}

std::string write_exact(const RunningAmount& amount) {
  return fmt::format("{} {}", quantity::write_exact(amount.amount), word_of(amount.counter));
}

}  // namespace record
