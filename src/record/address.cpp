#include "record/address.h"

#include <fmt/format.h>

#include <algorithm>

#include "failure/failure.h"
#include "quantity/ascii.h"
#include "quantity/number_text.h"

namespace record {
namespace {

using failure::InputError;
using quantity::is_digit;
using quantity::is_letter;
using quantity::lower;
using quantity::quoted;

// "3" or "1-8", appended to `positions`.
void read_run(std::string_view run, std::string_view whole, std::vector<int>& positions) {
  const auto dash = run.find('-');
  const int first = quantity::read_count(run.substr(0, dash), kMostPositions);
  const int last = dash == std::string_view::npos
                       ? first
                       : quantity::read_count(run.substr(dash + 1), kMostPositions);
  if (last < first) {
    throw InputError(fmt::format("{}: the range {}-{} falls; write {}-{}", quoted(whole), first,
                                 last, last, first));
  }
  for (int position = first; position <= last; ++position) positions.push_back(position);
}

}  // namespace

std::string read_joint_code(std::string_view text) {
  return read_code(text, "a joint code", "J06 or case-split");
}

bool is_code(std::string_view text) {
  return !text.empty() && text.size() <= kLongestCode && is_letter(text.front()) &&
         std::ranges::all_of(
             text, [](char c) { return is_letter(c) || is_digit(c) || c == '-' || c == '_'; });
}

std::string read_code(std::string_view text, std::string_view what, std::string_view example) {
  const std::string_view code = quantity::trimmed(text);
  if (!is_code(code)) {
    throw InputError(fmt::format(
        "{}: expected {} of letters, digits and hyphens that starts with a letter, such "
        "as {}",
        quoted(text), what, example));
  }
  return std::string(code);
}

bool same_code(std::string_view a, std::string_view b) {
  return std::ranges::equal(a, b, [](char x, char y) { return lower(x) == lower(y); });
}

std::string folded_code(std::string_view code) {
  std::string folded(code);
  std::ranges::transform(folded, folded.begin(), lower);
  return folded;
}

Address read_address(std::string_view text) {
  auto address = read_address_in_order(text);
  std::ranges::sort(address.positions);
  address.in_order = false;
  return address;
}

Address read_address_in_order(std::string_view text) {
  Address address;
  const auto slash = text.find('/');
  address.joint = read_joint_code(text.substr(0, slash));
  if (slash == std::string_view::npos) return address;

  std::string_view rest = text.substr(slash + 1);
  address.in_order = rest.find('-') == std::string_view::npos;
  while (true) {
    const auto comma = rest.find(',');
    read_run(rest.substr(0, comma), text, address.positions);
    if (comma == std::string_view::npos) break;
    rest.remove_prefix(comma + 1);
  }
  auto rising = address.positions;
  std::ranges::sort(rising);
  const auto twice = std::ranges::adjacent_find(rising);
  if (twice != rising.end()) {
    throw InputError(fmt::format("{}: position {} stands there twice", quoted(text), *twice));
  }
  if (!address.in_order) address.positions = std::move(rising);
  return address;
}

std::string write_address(std::string_view joint, int position) {
  return fmt::format("{}/{:02}", joint, position);
}

std::string write_address(std::string_view joint, const std::vector<int>& positions) {
  if (positions.size() == 1) return write_address(joint, positions.front());
  return fmt::format("{}/{}", joint, write_positions(positions));
}

std::string write_positions(const std::vector<int>& positions) {
  std::string text;
  for (std::size_t first = 0; first < positions.size();) {
    std::size_t last = first;
    while (last + 1 < positions.size() && positions[last + 1] == positions[last] + 1) ++last;
    if (!text.empty()) text += ',';
    text += last == first ? fmt::format("{}", positions[first])
                          : fmt::format("{}-{}", positions[first], positions[last]);
    first = last + 1;
  }
  return text;
}

}  // namespace record
