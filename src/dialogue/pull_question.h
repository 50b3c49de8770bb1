#pragma once

#include "dialogue/bench_sitting.h"
#include "finding/next_setting.h"

namespace dialogue {

// Asks for the next pull of a test, and for its wrench where none is at hand, and records it.
class PullQuestion {
 public:
  explicit PullQuestion(BenchSitting& sitting) : sitting_(sitting) {}

  void ask(const act::Standing& now, int position);

 private:
  void ask_for_wrench(const act::Standing& now, int position);
  void take_key(char key, const record::Measured& test, const finding::Proposal& proposal);
  void take_pull(const record::Measured& test, const record::SettingReading& reading,
                 const std::string& typed);
  void enter_so_far(int position);

  BenchSitting& sitting_;
};

}  // namespace dialogue
