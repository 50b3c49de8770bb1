#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

namespace tables {

// Which rows are known, and from which line of a file: each by 96 bits made of its text, so that a
// million of them take some thirty megabytes. Two texts that differ are taken for one with a
// probability of one in 10^16 among a million.
class RowMarks {
 public:
  struct Mark {
    std::uint64_t high = 0;
    std::uint32_t low = 0;
  };

  [[nodiscard]] static Mark mark_of(std::string_view text);

  // The line of a row that is known; nothing for another.
  [[nodiscard]] std::optional<std::size_t> line_of(const Mark& mark) const;

  // Makes a row known. The line from which it was known before, which stays; nothing for a new one.
  std::optional<std::size_t> add(const Mark& mark, std::size_t line);

 private:
  struct Slot {
    std::uint64_t high = 0;
    std::uint32_t low = 0;
    std::uint32_t line = kFree;
  };
  // A part of all rows, which grows by itself: the whole never stands there twice.
  struct Part {
    std::vector<Slot> slots;
    std::size_t taken = 0;
  };
  static constexpr std::uint32_t kFree = 0xFFFF'FFFFU;
  static constexpr std::size_t kParts = 256;

  [[nodiscard]] static Part& part_in(std::vector<Part>& parts, const Mark& mark);
  [[nodiscard]] static Slot& place_in(std::vector<Slot>& slots, const Mark& mark);
  static void grow(Part& part);

  mutable std::vector<Part> parts_ = std::vector<Part>(kParts);
};

}  // namespace tables
