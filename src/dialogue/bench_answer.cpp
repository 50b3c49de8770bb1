#include "dialogue/bench_answer.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

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

// A joint of that name is meant before the word.
std::optional<BagOrNote> read_bag_or_note(std::string_view text, const record::KnownNames& known) {
  for (const auto word : {std::string_view("bag"), std::string_view("note")}) {
    if (!quantity::starts_with_in_any_case(text, word) || is_one_of(word, known.joints)) continue;
    auto rest = text.substr(word.size());
    const bool is_word = rest.empty() || rest.front() == ' ' || rest.front() == ':';
    if (!is_word) continue;
    if (rest.starts_with(':')) rest.remove_prefix(1);
    const bool is_bag = word == "bag";
    if (quantity::trimmed(rest).empty()) {
      throw failure::InputError(fmt::format("{0}: expected it behind the word, such as {0} {1}",
                                            word, is_bag ? "7" : "rust on the seat"));
    }
    return BagOrNote{is_bag,
                     record::read_text(rest, fmt::format("the {}", word), is_bag ? 80 : 1000)};
  }
  return std::nullopt;
}

// A joint's code, whatever stands behind it.
bool begins_with_a_joint(std::string_view text, const record::KnownNames& known) {
  return std::ranges::any_of(known.joints, [&](const std::string& code) {
    if (text.size() < code.size() || !record::same_code(text.substr(0, code.size()), code))
      return false;
    const auto rest = text.substr(code.size());
    return rest.empty() ||
           (!quantity::is_letter(rest.front()) && !quantity::is_digit(rest.front()));
  });
}

}  // namespace

BenchAnswer read_bench_answer(std::string_view typed, std::string_view keys,
                              const record::KnownNames& known, AskedFor asked) {
  const auto text = quantity::trimmed(typed);
  if (text.empty()) return Key{};
  const char first = quantity::lower(text.front());
  if (text.size() == 1 && typed.front() == text.front() && keys.find(first) != keys.npos) {
    return Key{first};
  }
  if (quantity::is_digit(first)) return read_pull(text);
  if (auto said = read_bag_or_note(text, known)) return *std::move(said);
  // A name that is no joint's, where a wrench is asked for: then the wrench is what is not known.
  const bool is_wrench =
      asked == AskedFor::Wrench && text.size() > 1 && !begins_with_a_joint(text, known);
  if (is_wrench) return NamedWrench{std::string(text)};
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
