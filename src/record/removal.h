#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "quantity/length.h"
#include "record/in_job.h"
#include "record/word.h"

namespace record {

// How a fastener came loose at the first pull of the breaker bar.
enum class BreakLoose { Normal, Tight, Seized, AlreadyLoose, Sheared, Empty };
template <>
struct Vocabulary<BreakLoose> {
  static constexpr std::array kWords = {
      Word{BreakLoose::Normal, "normal"},   Word{BreakLoose::Tight, "tight"},
      Word{BreakLoose::Seized, "seized"},   Word{BreakLoose::AlreadyLoose, "loose"},
      Word{BreakLoose::Sheared, "sheared"}, Word{BreakLoose::Empty, "empty"}};
};

// Where a thread was found torn, pulled or crossed.
enum class DamagedThread { Fastener, Hole, Both };
template <>
struct Vocabulary<DamagedThread> {
  static constexpr std::array kWords = {Word{DamagedThread::Fastener, "fastener"},
                                        Word{DamagedThread::Hole, "hole"},
                                        Word{DamagedThread::Both, "both"}};
};

// Fasteners of one joint as they came out together.
struct Removal {
  std::string joint;
  std::vector<int> positions;
  BreakLoose broke = BreakLoose::Normal;
  bool marked = true;                           // teardown mark drawn before it moved
  std::optional<DamagedThread> damaged_thread;  // nothing where none was seen
  std::string bag;
  std::string note;
  // What came out, where it is not what the joint says; empty where it is.
  std::optional<quantity::Length> other_length;
  std::string other_length_typed;  // as entered; may be empty, see other_length_text
  std::string other_size;
  std::string other_grade;
};
template <>
struct InJob<Removal> {
  std::vector<Entry<Removal>> removals;
};

// The length that came out as it was typed, else in mm; empty where it was the joint's.
[[nodiscard]] std::string other_length_text(const Removal& removal);

}  // namespace record
