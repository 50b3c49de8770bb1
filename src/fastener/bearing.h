#pragma once

#include "fastener/origin.h"
#include "fastener/thread.h"
#include "quantity/length.h"

namespace fastener {

// The diameter at which head friction acts, Dkm: the mean of the bearing face's outer diameter and
// the hole. Source: VDI 2230 Part 1, Dkm = (dw + dh)/2; ISO 16047. InputError where the face is not
// wider than the hole.
[[nodiscard]] quantity::Length bearing_diameter(quantity::Length face, quantity::Length hole);

// The ring on which a head, a flange or a washer bears.
struct SeatRing {
  quantity::Length face;  // outer diameter
  quantity::Length hole;  // inner diameter
};

// That of a plain hexagon head or nut without washer, when nothing has been measured.
// Metric sizes from M3 to M64 of the coarse series: smallest face of ISO 4014 (dw, grade A to M24,
// grade B above) and the medium hole of ISO 273, both from memory; they give the published VDI
// torques of M3 to M24. Every other thread: across flats 1.5 d and a hole as wide as the thread
// (Shigley 9th ed., text before Eq. 8-26), which rub at 1.25 d. Flanged and socket heads differ.
[[nodiscard]] SeatRing usual_seat(const Thread& thread);
[[nodiscard]] quantity::Length usual_bearing_diameter(const Thread& thread);

// Which of the two it is.
[[nodiscard]] Origin usual_bearing_origin(const Thread& thread);

}  // namespace fastener
