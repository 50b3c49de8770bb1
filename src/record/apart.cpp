#include "record/apart.h"

namespace record {
namespace {

bool had_seen(const Apart::Place& later, const Apart::Place& earlier) {
  if (later.chain == earlier.chain) return later.place >= earlier.place;
  const auto chain = static_cast<std::size_t>(earlier.chain);
  return later.seen != nullptr && chain < later.seen->size() &&
         (*later.seen)[chain] > earlier.place;
}

}  // namespace

bool Apart::are_apart(const Stamp& a, const Stamp& b) const {
  if (places_.empty()) return false;
  const auto at_a = places_.find(a.id);
  const auto at_b = places_.find(b.id);
  if (at_a == places_.end() || at_b == places_.end()) return false;
  const auto& place_a = at_a->second;
  const auto& place_b = at_b->second;
  return place_a.stretch == place_b.stretch && !had_seen(place_a, place_b) &&
         !had_seen(place_b, place_a);
}

}  // namespace record
