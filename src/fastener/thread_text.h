#pragma once

#include <string>
#include <string_view>

#include "fastener/thread.h"

namespace fastener {

// Reads a thread as people write it, any case, with or without spaces:
//   M10  M10x1.25  m10 x 1,25  M10×1.25  M10-1.25     no pitch means the ISO coarse pitch
//   #10-24  10-24  1/4-20  3/8-16 UNC  1-8  1 1/8-7  1-1/8-7  1/4"-28  .250-28  3/8 UNC
// An inch size needs its threads per inch or UNC, UNF, 8UN: both pitches are common. A whole number
// 1 to 4 with 40 or more threads per inch is a number size (2-56 is #2), otherwise inches (2-4.5).
// A tolerance class at the end (-6g, -2A) is read over; LH at the end is kept as a left-hand
// thread. InputError says what was found, what was expected and what to try. A pitch that no
// standard series lists is accepted where it can exist; Thread::note tells.
[[nodiscard]] Thread read_thread(std::string_view text);

// The one canonical form, pitch always written: "M10x1.5", "M10x1.25", "#4-40 UNC", "3/8-24 UNF",
// "1-1/8-8 UN", "1-14" (no listed series), "M10x1.5-LH". read_thread gives the same value back.
[[nodiscard]] std::string write_exact(const Thread& thread);

// "metric coarse", "metric fine", "metric, non-standard pitch", "UNC", ...
[[nodiscard]] std::string_view name_of(ThreadSeries series);

}  // namespace fastener
