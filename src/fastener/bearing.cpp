#include "fastener/bearing.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "failure/failure.h"
#include "quantity/number_text.h"

namespace fastener {
namespace {

using quantity::Length;

struct HexagonHead {
  double diameter_mm;
  double face_mm;  // ISO 4014 dw, least
  double hole_mm;  // ISO 273 medium series
};

constexpr std::array kHexagonHeads = {
    HexagonHead{3, 4.57, 3.4},    HexagonHead{3.5, 5.07, 3.9},  HexagonHead{4, 5.88, 4.5},
    HexagonHead{5, 6.88, 5.5},    HexagonHead{6, 8.88, 6.6},    HexagonHead{8, 11.63, 9},
    HexagonHead{10, 14.63, 11},   HexagonHead{12, 16.63, 13.5}, HexagonHead{14, 19.64, 15.5},
    HexagonHead{16, 22.49, 17.5}, HexagonHead{18, 25.34, 20},   HexagonHead{20, 28.19, 22},
    HexagonHead{22, 31.71, 24},   HexagonHead{24, 33.61, 26},   HexagonHead{27, 38, 30},
    HexagonHead{30, 42.75, 33},   HexagonHead{33, 46.55, 36},   HexagonHead{36, 51.11, 39},
    HexagonHead{39, 55.86, 42},   HexagonHead{42, 59.95, 45},   HexagonHead{45, 64.7, 48},
    HexagonHead{48, 69.45, 52},   HexagonHead{52, 74.2, 56},    HexagonHead{56, 78.66, 62},
    HexagonHead{60, 83.41, 66},   HexagonHead{64, 88.16, 70},
};

// The head of exactly this metric size, or nothing.
const HexagonHead* find_hexagon_head(const Thread& thread) {
  const auto* head = std::ranges::find(kHexagonHeads, thread.diameter().in_millimetres(),
                                       &HexagonHead::diameter_mm);
  return thread.is_metric() && head != kHexagonHeads.end() ? head : nullptr;
}

}  // namespace

Length bearing_diameter(Length face, Length hole) {
  if (hole.in_millimetres() <= 0.0 || face <= hole) {
    throw failure::InputError(
        fmt::format("a bearing face of {} mm on a hole of {} mm carries nothing; expected a face "
                    "wider than its hole",
                    quantity::write_rounded(face.in_millimetres()),
                    quantity::write_rounded(hole.in_millimetres())));
  }
  return (face + hole) / 2.0;
}

SeatRing usual_seat(const Thread& thread) {
  if (const auto* head = find_hexagon_head(thread)) {
    return {Length::millimetres(head->face_mm), Length::millimetres(head->hole_mm)};
  }
  return {thread.diameter() * 1.5, thread.diameter()};
}

Length usual_bearing_diameter(const Thread& thread) {
  const auto seat = usual_seat(thread);
  return bearing_diameter(seat.face, seat.hole);
}

Origin usual_bearing_origin(const Thread& thread) {
  return find_hexagon_head(thread) != nullptr
             ? Origin{"least face of ISO 4014 on a medium hole of ISO 273", HowKnown::FromMemory}
             : Origin{"1.25 d, Shigley 9th ed., text before Eq. 8-26", HowKnown::Seen};
}

}  // namespace fastener
