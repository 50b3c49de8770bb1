#pragma once

#include <string_view>
#include <vector>

namespace record {

// A tightening order that a source prints for one count and that somebody may ask for by name in
// place of the computed one.
struct PublishedPattern {
  std::string_view name;
  std::string_view shape;   // "circle" or "line"
  std::vector<int> order;   // positions counted clockwise, or from one end
  std::string_view source;  // document, and how we know it
};

[[nodiscard]] const std::vector<PublishedPattern>& published_patterns();

// The pattern of that name. InputError for an unknown name or another count, naming what there is.
[[nodiscard]] const PublishedPattern& published_pattern(std::string_view name, int count);

}  // namespace record
