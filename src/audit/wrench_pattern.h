#pragma once

#include <cstddef>
#include <map>

#include "finding/survey.h"

namespace audit {

// What all findings of one wrench have in common, over the whole job.
struct WrenchPattern {
  std::size_t findings = 0;
  std::size_t joints = 0;
  double median_ratio = 1.0;  // found over specified
  bool is_alike = false;      // all within kAlike (joint_pattern.h) of the median
};

// Of every wrench whose findings can be held against a specification; those of a wrench that is
// not in the logbook stand under nullptr.
[[nodiscard]] std::map<const record::Wrench*, WrenchPattern> wrench_patterns(
    const finding::Survey& survey);

}  // namespace audit
