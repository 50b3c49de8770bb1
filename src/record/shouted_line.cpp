#include "record/shouted_line.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "failure/failure.h"
#include "quantity/ascii.h"
#include "quantity/number_text.h"
#include "record/measured.h"

namespace record {
namespace {

using Words = std::vector<std::string>;

Words words_of(std::string_view text) {
  Words words;
  for (text = quantity::trimmed(text); !text.empty(); text = quantity::trimmed(text)) {
    const auto end = std::min(text.find_first_of(" \t"), text.size());
    words.emplace_back(text.substr(0, end));
    text.remove_prefix(end);
  }
  return words;
}

std::string joined(const Words& words) { return fmt::format("{}", fmt::join(words, " ")); }

bool is_one_of(std::string_view name, const std::vector<std::string>& known) {
  return std::ranges::any_of(known, [&](const auto& each) { return same_code(each, name); });
}

bool is_number(std::string_view text) {
  return !text.empty() && std::ranges::all_of(text, quantity::is_digit);
}

// "J06-3:" and "J06 3," are pauses.
std::string without_pause(std::string word) {
  while (word.ends_with(':') || word.ends_with(',')) word.pop_back();
  return word;
}

// Takes the address off the front of the words, as "J06/3".
std::string take_address(Words& words, const KnownNames& known) {
  auto first = without_pause(words.front());
  words.erase(words.begin());
  if (first.find('/') != std::string::npos) return first;
  if (is_one_of(first, known.joints)) {
    const auto second = words.empty() ? std::string() : without_pause(words.front());
    if (!is_number(second)) return first;
    words.erase(words.begin());
    return first + '/' + second;
  }
  const auto mark = first.find_last_of("-.:");
  if (mark != std::string::npos && is_number(first.substr(mark + 1))) first[mark] = '/';
  return first;
}

bool are_readings(const Words& words) {
  try {
    return !read_readings(joined(words), std::nullopt).empty();
  } catch (const failure::InputError&) {
    return false;
  }
}

// "on" and "with" before a wrench are no part of the readings; but "80 on" is one.
void drop_preposition(Words& words, std::size_t before) {
  if (before == 0) return;
  const auto& word = words[before - 1];
  const bool is_mark = same_code(word, "on") && before >= 2 && is_number(words[before - 2]);
  if ((same_code(word, "on") && !is_mark) || same_code(word, "with")) {
    words.erase(words.begin() + static_cast<Words::difference_type>(before) - 1);
  }
}

std::string take_wrench(Words& words, const KnownNames& known) {
  auto at = std::ranges::find_if(words,
                                 [&](const auto& word) { return is_one_of(word, known.wrenches); });
  if (at == words.end()) {
    if (words.empty() || !quantity::is_letter(words.back().front()) || are_readings(words)) {
      return {};
    }
    Words others(words.begin(), words.end() - 1);
    drop_preposition(others, others.size());
    if (!are_readings(others)) return {};
    at = words.end() - 1;
  }
  auto wrench = *at;
  const auto place = static_cast<std::size_t>(at - words.begin());
  words.erase(at);
  drop_preposition(words, place);
  return wrench;
}

}  // namespace

Address read_spoken_address(std::string_view text, const KnownNames& known) {
  auto words = words_of(text);
  if (words.empty()) return read_address(text);
  const auto address = take_address(words, known);
  return read_address(words.empty() ? std::string_view(address) : text);
}

std::optional<ShoutedLine> read_shouted_line(std::string_view text, const KnownNames& known) {
  auto words = words_of(text);
  if (words.empty() || !quantity::is_letter(words.front().front())) return std::nullopt;
  const auto spoken = take_address(words, known);
  if (words.empty()) return std::nullopt;
  ShoutedLine line;
  line.address = read_address(spoken);
  if (line.address.positions.size() != 1) {
    throw failure::InputError(
        fmt::format("{}: expected one position with its readings, such as {}-3 60s 70s 75s 80o",
                    quantity::quoted(quantity::trimmed(text)), line.address.joint));
  }
  line.wrench = take_wrench(words, known);
  line.readings = joined(words);
  return line;
}

}  // namespace record
