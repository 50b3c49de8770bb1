#pragma once

#include "fastener/bearing.h"
#include "quantity/force.h"
#include "quantity/length.h"
#include "quantity/stress.h"

namespace fastener {

// Under a washer: the head spreads its force by 1.6 times the washer's thickness, to its outer
// diameter at most. Source: VDI 2230 Part 1, 5.5.4 (from memory). InputError for a washer no wider
// than the hole or without thickness.
[[nodiscard]] SeatRing under_washer(const SeatRing& head, quantity::Length outer,
                                    quantity::Length thickness);

// p = F/Ap with Ap = π/4 (dw² - dh²). Source: VDI 2230 Part 1, 5.5.4 (from memory). InputError
// where the ring bears nothing.
[[nodiscard]] quantity::Stress head_pressure(quantity::Force preload, const SeatRing& seat);

}  // namespace fastener
