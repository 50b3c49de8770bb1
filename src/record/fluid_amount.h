#pragma once

#include <array>
#include <string>

#include "quantity/volume.h"
#include "record/in_job.h"
#include "record/word.h"

namespace record {

enum class FluidMove { Drained, Filled };
template <>
struct Vocabulary<FluidMove> {
  static constexpr std::array kWords = {Word{FluidMove::Drained, "drained"},
                                        Word{FluidMove::Filled, "filled"}};
};

// A fluid that was drained and measured, or put back. All that was drained of a fluid is the least
// that has to go back.
struct FluidAmount {
  std::string fluid;  // "gear oil", in the fitter's words
  FluidMove move = FluidMove::Drained;
  quantity::Volume amount = quantity::Volume::millilitres(0);
  std::string typed;  // as entered
  std::string note;
};
template <>
struct InJob<FluidAmount> {
  std::vector<Entry<FluidAmount>> fluids;
};

}  // namespace record
