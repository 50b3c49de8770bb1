#pragma once

#include <cstdint>
#include <iterator>
#include <random>

#include "record/job.h"

// Draws numbers that are the same on every machine for one seed.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}

  // least to most, both included.
  int whole(int least, int most) {
    const auto faces = static_cast<std::uint64_t>(most - least + 1);
    return least + static_cast<int>(engine_() % faces);
  }
  double real(double least, double most) {
    return least + (most - least) * static_cast<double>(engine_() >> 11U) * 0x1.0p-53;
  }
  bool yes(double share) { return real(0.0, 1.0) < share; }

  template <class Items>
  auto& one_of(Items& items) {
    return items[static_cast<std::size_t>(whole(0, static_cast<int>(std::size(items)) - 1))];
  }

 private:
  std::mt19937_64 engine_;
};

// How far a job has come.
enum class Stage { TakenApart, BeingClosed, Closed };

// When the jobs below are looked at: after everything in them.
record::Moment audit_moment();

// An invented job in which nothing is wrong: two to five joints of three to twelve fasteners with
// plain, stepped and torque-and-angle specifications, all taken out and bagged behind a hold point
// that was passed, tested within their tolerance, and put back by the plan as far as the stage
// says.
record::Job random_job(Dice& dice, Stage stage);

// The same and still nothing wrong, with what makes a log less even: positions with a torque of
// their own, one-time fasteners that arrive before they are needed, and half of the time a whole
// teardown and reassembly before the one that counts.
record::Job uneven_job(Dice& dice, Stage stage);
