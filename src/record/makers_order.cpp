#include "record/makers_order.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>

#include "failure/failure.h"
#include "quantity/number_text.h"

namespace record {
namespace {

using failure::InputError;

constexpr std::string_view kSeparators = ", \t\n";
constexpr std::size_t kMostNamed = 10;

std::string first_few(const std::vector<int>& positions) {
  const auto named = std::min(positions.size(), kMostNamed);
  std::string text;
  for (std::size_t i = 0; i < named; ++i) text += fmt::format("{}{}", i ? ", " : "", positions[i]);
  if (named < positions.size()) text += fmt::format(" and {} more", positions.size() - named);
  return text;
}

std::vector<int> read_positions(std::string_view text, int count) {
  std::vector<int> order;
  std::size_t start = text.find_first_not_of(kSeparators);
  while (start != std::string_view::npos) {
    const std::size_t end = std::min(text.find_first_of(kSeparators, start), text.size());
    order.push_back(quantity::read_count(text.substr(start, end - start), count));
    start = text.find_first_not_of(kSeparators, end);
  }
  return order;
}

}  // namespace

std::vector<int> read_makers_order(std::string_view text, int count) {
  if (text.find('-') != std::string_view::npos) {
    throw InputError(
        fmt::format("{}: a dash could mean a range; write the tightening order with commas, such "
                    "as 1,3,2,4",
                    quantity::quoted(text)));
  }
  std::vector<int> order = read_positions(text, count);
  std::vector<int> times_named(static_cast<std::size_t>(count), 0);
  for (const int position : order) ++times_named[static_cast<std::size_t>(position) - 1];
  std::vector<int> missing;
  std::vector<int> repeated;
  for (int position = 1; position <= count; ++position) {
    const int times = times_named[static_cast<std::size_t>(position) - 1];
    if (times == 0) missing.push_back(position);
    if (times > 1) repeated.push_back(position);
  }
  if (missing.empty() && repeated.empty()) return order;
  std::string found;
  if (!missing.empty()) found = "missing: " + first_few(missing);
  if (!repeated.empty()) {
    found += (found.empty() ? "" : "; ") + ("more than once: " + first_few(repeated));
  }
  throw InputError(fmt::format("{} is no tightening order of {} positions ({}); expected each once",
                               quantity::quoted(text), count, found));
}

}  // namespace record
