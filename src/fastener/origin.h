#pragma once

#include <string_view>

namespace fastener {

// Whether a figure was read in its source or recalled without having it at hand.
enum class HowKnown { Seen, FromMemory };

// Where a figure comes from.
struct Origin {
  std::string_view source;
  HowKnown how_known = HowKnown::Seen;
};

}  // namespace fastener
