#include "dialogue/bench_answer.h"

#include <fmt/format.h>

#include <algorithm>

#include "failure/failure.h"
#include "quantity/ascii.h"
#include "quantity/number_text.h"
#include "record/typed_text.h"

namespace dialogue {
namespace {

// A number with nothing behind it, or a unit of torque.
bool is_setting(std::string_view text) {
  const auto end = text.find_first_not_of("0123456789.,");
  return end == std::string_view::npos ||
         quantity::read_torque_unit(quantity::trimmed(text.substr(end))).has_value();
}

bool is_one_of(std::string_view name, const std::vector<std::string>& known) {
  return std::ranges::any_of(known,
                             [&](const auto& each) { return record::same_code(each, name); });
}

BenchAnswer read_pull(std::string_view text) {
  if (is_setting(text)) return ChosenSetting{record::read_setting(text)};
  const auto readings = record::read_readings(text, std::nullopt);
  if (readings.size() != 1) {
    throw failure::InputError(
        fmt::format("{}: one pull at a time here; a whole test begins with its address, such as "
                    "J06-03 60s 70s 75s 80o",
                    quantity::quoted(text)));
  }
  return OwnPull{readings.front(), record::read_text(text, "the reading", 100)};
}

}  // namespace

BenchAnswer read_bench_answer(std::string_view typed, std::string_view keys,
                              const record::KnownNames& known) {
  const auto text = quantity::trimmed(typed);
  if (text.empty()) return Key{};
  const char first = quantity::lower(text.front());
  if (text.size() == 1 && typed.front() == text.front() && keys.find(first) != keys.npos) {
    return Key{first};
  }
  if (quantity::is_digit(first)) return read_pull(text);
  if (auto line = record::read_shouted_line(text, known)) return *std::move(line);
  if (is_one_of(text, known.joints)) return Elsewhere{record::read_address(text)};
  if (is_one_of(text, known.wrenches)) return NamedWrench{std::string(text)};
  if (text.size() == 1) {
    std::string counting = "Enter";
    for (const char key : keys) counting += std::string(" ") + key;
    throw failure::InputError(
        fmt::format("{} is no key here; {} are", quantity::quoted(text), counting));
  }
  return Elsewhere{record::read_spoken_address(text, known)};
}

}  // namespace dialogue
