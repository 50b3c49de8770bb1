#include "record/published_pattern.h"

#include <fmt/format.h>

#include <algorithm>

#include "failure/failure.h"
#include "quantity/number_text.h"

namespace record {

const std::vector<PublishedPattern>& published_patterns() {
  static const std::vector<PublishedPattern> patterns = {
      {"army-circular",
       "circle",
       {1, 7, 4, 10, 2, 8, 6, 12, 5, 11, 9, 3},
       "US Army TB 9-3950-253-13&P, torque limits work package, circular pattern (seen)"},
      {"army-straight",
       "line",
       {5, 6, 4, 7, 3, 8, 2, 9, 1},
       "US Army TB 9-3950-253-13&P, torque limits work package, straight pattern (seen)"},
  };
  return patterns;
}

const PublishedPattern& published_pattern(std::string_view name, int count) {
  const auto& patterns = published_patterns();
  const auto found = std::ranges::find(patterns, name, &PublishedPattern::name);
  if (found == patterns.end()) {
    std::string names;
    for (const auto& pattern : patterns) {
      names += fmt::format("{}{}", names.empty() ? "" : ", ", pattern.name);
    }
    throw failure::InputError(fmt::format("{} is no published pattern; expected one of {}",
                                          quantity::quoted(name), names));
  }
  if (found->order.size() != static_cast<std::size_t>(count)) {
    throw failure::InputError(fmt::format(
        "{} is printed for {} positions and this joint has {}; leave the pattern out to have the "
        "order computed",
        found->name, found->order.size(), count));
  }
  return *found;
}

}  // namespace record
