#pragma once

#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "audit/audit.h"

namespace audit {

// Tells one state of the evidence of a deviation from another, so that a decision made on the one
// does not pass for a decision on the other.
class Evidence {
 public:
  // Points into the job and the survey of the case.
  explicit Evidence(const Case& subject);

  // The fingerprint of what a deviation of this rule rests on now: its level, every word of
  // `says` that holds a figure except numbers of lines, and the ids of the lines that the rule
  // rests on (Rule::rests_on), of its position or of its whole joint. Plain words do not count, so
  // that a later version may say the same in other words. 16 hexadecimal digits, FNV-1a of 64 bits.
  [[nodiscard]] std::string fingerprint(const Rule& rule, const Deviation& deviation) const;

  // The numbers of the lines that it rests on and that were entered after this one, rising.
  [[nodiscard]] std::vector<std::int64_t> lines_since(const record::Stamp& decision,
                                                      const Rule& rule,
                                                      const Deviation& deviation) const;

 private:
  using Lines = std::vector<const record::Stamp*>;
  struct JointLines {
    const finding::JointState* state = nullptr;
    std::vector<Lines> tightenings;  // by position - 1
  };
  // The lines at one position, added to `lines`.
  static void add(const JointLines& joint, const RestsOn& rests_on, std::size_t at, Lines& lines);
  // All that a deviation of this rule rests on, each once, by id.
  [[nodiscard]] Lines lines_of(const Rule& rule, const Deviation& deviation) const;

  std::unordered_map<std::string, JointLines> joints_;  // by folded code
};

// FNV-1a, 64 bits, in hexadecimal (Fowler, Noll, Vo; draft-eastlake-fnv). It guards against nothing
// but chance.
[[nodiscard]] std::string fnv1a(std::string_view text);

}  // namespace audit
