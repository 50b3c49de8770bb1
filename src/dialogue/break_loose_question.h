#pragma once

#include "dialogue/bench_sitting.h"

namespace dialogue {

// Asks how a position broke loose, and records it.
class BreakLooseQuestion {
 public:
  explicit BreakLooseQuestion(BenchSitting& sitting) : sitting_(sitting) {}

  void ask(int position);

 private:
  void take_removal(int position, record::BreakLoose broke, bool marked);

  BenchSitting& sitting_;
  int unmarked_ = 0;  // the position that has no mark
};

}  // namespace dialogue
