#include "tables/row_marks.h"

#include <algorithm>
#include <functional>
#include <string>
#include <utility>

namespace tables {

RowMarks::Mark RowMarks::mark_of(std::string_view text) {
  // The same hash of two texts, so that it starts its way through the row from two places.
  thread_local std::string salted;
  salted.assign("and again");
  salted += text;
  const std::hash<std::string_view> hash;
  return {hash(text), static_cast<std::uint32_t>(hash(salted) >> 32U)};
}

RowMarks::Part& RowMarks::part_in(std::vector<Part>& parts, const Mark& mark) {
  return parts[mark.low % kParts];
}

// That of this mark, or the free one where it belongs.
RowMarks::Slot& RowMarks::place_in(std::vector<Slot>& slots, const Mark& mark) {
  for (auto at = mark.high % slots.size();; at = at + 1 == slots.size() ? 0 : at + 1) {
    auto& slot = slots[at];
    if (slot.line == kFree || (slot.high == mark.high && slot.low == mark.low)) return slot;
  }
}

void RowMarks::grow(Part& part) {
  constexpr std::size_t kLeast = 8;
  std::vector<Slot> larger(std::max(kLeast, part.slots.size() + part.slots.size() / 2));
  for (const auto& slot : part.slots) {
    if (slot.line != kFree) place_in(larger, {slot.high, slot.low}) = slot;
  }
  part.slots = std::move(larger);
}

std::optional<std::size_t> RowMarks::line_of(const Mark& mark) const {
  auto& part = part_in(parts_, mark);
  if (part.slots.empty()) return std::nullopt;
  const auto& slot = place_in(part.slots, mark);
  if (slot.line == kFree) return std::nullopt;
  return slot.line;
}

std::optional<std::size_t> RowMarks::add(const Mark& mark, std::size_t line) {
  auto& part = part_in(parts_, mark);
  // At most seven slots in eight are taken.
  if (8 * (part.taken + 1) > 7 * part.slots.size()) grow(part);
  auto& slot = place_in(part.slots, mark);
  if (slot.line != kFree) return slot.line;
  slot = {mark.high, mark.low, static_cast<std::uint32_t>(line)};
  ++part.taken;
  return std::nullopt;
}

}  // namespace tables
