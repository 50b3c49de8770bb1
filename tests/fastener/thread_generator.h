#pragma once

#include <ostream>

#include "fastener/thread.h"
#include "fastener/thread_text.h"
#include "support/property.h"

namespace fastener {
inline void showValue(const Thread& thread, std::ostream& out) { out << write_exact(thread); }
}  // namespace fastener

// Threads of every series and some that no standard lists, for properties.
template <>
struct rc::Arbitrary<fastener::Thread> {
  static Gen<fastener::Thread> arbitrary() {
    const auto hand = gen::element(fastener::Hand::Right, fastener::Hand::Left);
    const auto metric = gen::apply(
        [](int tenths, int share, fastener::Hand side) {
          // Pitch from 0.2 mm up to a quarter of the diameter, in hundredths of a millimetre.
          const int quarter = tenths * 10 / 4;
          const int pitch = 20 + share * (quarter - 20) / 1000;
          return fastener::Thread::metric(tenths / 10.0, pitch / 100.0, side);
        },
        gen::inRange(16, 641), gen::inRange(0, 1001), hand);
    const auto unified = gen::apply(
        [](double size, double threads, fastener::Hand side) {
          return fastener::Thread::unified(size, threads, side);
        },
        gen::element(0.25, 0.375, 0.5, 0.875, 1.0, 1.125, 1.5),
        gen::element(16.0, 18.0, 20.0, 24.0, 28.0, 32.0), hand);
    const auto numbered = gen::apply(
        [](double size, double threads, fastener::Hand side) {
          return fastener::Thread::unified(size, threads, side);
        },
        gen::element(0.086, 0.112, 0.138, 0.19), gen::element(48.0, 56.0, 64.0), hand);
    const auto large = gen::apply(
        [](double size, double threads, fastener::Hand side) {
          return fastener::Thread::unified(size, threads, side);
        },
        gen::element(1.0, 1.125, 2.0, 2.25, 3.0),
        gen::element(4.5, 5.0, 6.0, 8.0, 12.0, 24.0, 40.0, 64.0), hand);
    return gen::oneOf(metric, unified, numbered, large);
  }
};
