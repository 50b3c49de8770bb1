#pragma once

#include "fastener/preload_band.h"
#include "fastener/thread.h"
#include "quantity/length.h"

namespace fastener {

// The preload of a bolt that has become longer by a measured stretch:
//   F = A E/l · ΔL
//   A  section, l  stretched length, E  30 Mpsi (206.8 GPa), taken as for lost preload: between the
//   stress area over all of the length under the head and the full shank over 1.5 d less
// Source: Shigley 9th ed., Eq. 4-4. Elastic only. InputError for a stretch not above zero.
[[nodiscard]] PreloadBand preload_by_stretch(const Thread& thread, quantity::Length under_head,
                                             quantity::Length stretch);

}  // namespace fastener
