#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "finding/next_setting.h"
#include "record/measured.h"
#include "words/text.h"
#include "words/wrenches_for_test.h"

namespace screen {

// Where somebody is in the teardown of a joint: the position, and its place among those to be done.
struct TeardownPlace {
  std::string joint;
  int position = 0;
  std::size_t place = 0;  // 1 .. of
  std::size_t of = 0;
};

// What is kept with a fastener besides how it came out, as it was last answered; empty for none.
struct Kept {
  std::string bag;   // stays for those that follow in the joint
  std::string note;  // of this one alone
};

// "J06/03, 3 of 16: draw the mark, then break it loose with the breaker bar", with bag and note
// where there are any, and the keys.
[[nodiscard]] std::string break_loose_prompt(const TeardownPlace& place, bool marked,
                                             const Kept& kept, const words::Page& page);

// "J06/03, 3 of 16, next 75 N·m on TW2", the readings so far, why that setting, and the keys, after
// a pull that moved nothing with the question whether it is backed off from here on; or
// why no further pull is proposed. `set` is a setting that the person has chosen instead.
[[nodiscard]] std::string pull_prompt(const TeardownPlace& place, const record::Measured& test,
                                      const finding::Proposal& proposal, std::optional<double> set,
                                      const words::Page& page);

// "J06/03, 3 of 16: which wrench? TW2, TW3", and which of them are out of calibration on the day or
// do not cover what is expected; where none does, that one is needed that covers it.
[[nodiscard]] std::string wrench_prompt(const TeardownPlace& place,
                                        const words::WrenchesForTest& wrenches,
                                        const words::Page& page);

// What is asked at the bench.
enum class BenchPrompt { Joint, BreakLoose, Wrench, Pull };

// Every key that counts at this prompt, and what else may be typed there.
[[nodiscard]] std::string bench_keys(BenchPrompt at, const words::Page& page);

}  // namespace screen
