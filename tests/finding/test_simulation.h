#pragma once

#include <array>
#include <cstdint>
#include <string_view>

// Coverage of ± U: invented bolts whose true torque is known are tested, and what the readings come
// to is held against it.

// The ways of reading a test.
enum class Reading { EndedOn, PastInOneStep, OnThenPast, Offsets, OnAtOnce, NeverOn };
inline constexpr std::array kReadings = {Reading::EndedOn,    Reading::PastInOneStep,
                                         Reading::OnThenPast, Reading::Offsets,
                                         Reading::OnAtOnce,   Reading::NeverOn};
[[nodiscard]] std::string_view name_of(Reading reading);

struct SimulatedTest {
  bool counts = false;             // the readings came out in the way that was asked for
  bool is_bound = false;           // they give a bound, which holds on its own side alone
  bool covered = false;            // the true torque lies inside ± U
  bool tightened_covered = false;  // and what it was tightened to inside that estimate's
  double relative = 0.0;           // U over the estimate
  // How far off the estimate is, over U: U would have to be this share of itself to hold the truth.
  // Of a bound how far the truth lies beyond it; zero where it keeps to it.
  double needed = 0.0;
};

// The test with this number of a series; the same number and seed give the same test. Assumed:
//   bolt      M6 to M24, 3 to 10 d under the head (in one of four the length is not on record, in
//             one of four the grade), steel, oiled; true torque per degree log-uniform over the
//             program's span for it
//   true torque   60 to 130 % of what loads it to 60 % of yield at the middle of the friction band
//   wrench    ±4 % at most: one deviation for the whole test, uniform; graduated 1/100 of its range
//   pull      stops late: normal, standard deviation 2 % of the torque, once a test
//   steps     2 to 8 % of the torque, rounded to the graduation
//   mark      short where it stands short of the line by more than what still looks on to this
//             person: uniform from a tenth to all of half the pen line, on each side apart
//   offsets   read to the degree, with a normal error of half a degree besides
//   bounds    the first pull at 90 to 110 % of the true torque counts where the mark is on the line
//             at once; or the pulls end before the mark comes on it
//   tightened to   true torque over a ratio uniform from 0.9 to 1.1
[[nodiscard]] SimulatedTest simulate_test(Reading reading, std::uint64_t seed,
                                          std::uint64_t number);
