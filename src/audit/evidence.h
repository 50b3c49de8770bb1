#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "audit/rule.h"

namespace audit {

// Tells one state of the evidence of a deviation from another, so that a decision made on the one
// does not pass for a decision on the other.
class Evidence {
 public:
  // Points into the job, the survey and the lookups of the case. What is asked is asked of one
  // joint after the other, so that no more than the lines of the last one are gathered.
  explicit Evidence(const Case& subject);

  // The fingerprint of what this part of a deviation of the rule rests on now: its level, its
  // figures (statement.h) and the ids of the lines that the rule rests on (Rule::rests_on), of its
  // position or of its whole joint, those done after Part::rests_until left out. No word of its
  // sentence counts. 16 hexadecimal digits, FNV-1a of 64 bits.
  [[nodiscard]] std::string fingerprint(const Rule& rule, const Deviation& deviation,
                                        const Part& part) const;

  // The same as versions before schema step 9 made it, whose decisions are in many a logbook: of
  // its level, every word of its sentence that holds a figure except after the word "line", and
  // the ids. The sentence is the one of that time (Part::old_says).
  [[nodiscard]] std::string old_fingerprint(const Rule& rule, const Deviation& deviation,
                                            const Part& part) const;

  // Of the lines that it rests on, the one done last; nullptr where it rests on none.
  [[nodiscard]] const record::Stamp* newest(const Rule& rule, const Deviation& deviation,
                                            const Part& part) const;

  // The last finding among them; nullptr where there is none.
  [[nodiscard]] const record::Stamp* finding(const Rule& rule, const Deviation& deviation,
                                             const Part& part) const;

  // Puts to the part the numbers of the lines that it rests on, or that say it, and that were
  // entered after the decision before or in a copy apart from it: Part::lines_since and, of those,
  // Part::lines_done and Part::lines_apart, rising.
  void name_lines_since(const Rule& rule, const Deviation& deviation, Part& part) const;

 private:
  using Lines = std::vector<const record::Stamp*>;
  // Every line of one kind at every position that it names.
  using AtPositions = std::vector<std::pair<int, const record::Stamp*>>;
  struct JointEvidence {
    const finding::JointState* state = nullptr;
    std::array<AtPositions, record::Kinds::kCount> lines;  // by the kind; by position, then by id
  };
  // Those of one kind, out of the lines of the joint.
  template <class Kind>
  static void gather(const JointLines& of_joint, JointEvidence& joint);
  // Of the joint with this code; nothing where it is not in the logbook.
  [[nodiscard]] const JointEvidence* evidence_of(std::string_view joint) const;
  // The lines of a kind that count at a position, added to `lines`: not those of the reassembly
  // that were dated before it came out and written after that.
  template <class Kind>
  static void add_of(const JointEvidence& joint, const Rule& rule, int position, Lines& lines);
  // All that a part of a deviation of this rule rests on, each once, by id.
  [[nodiscard]] Lines lines_of(const Rule& rule, const Deviation& deviation,
                               const Part& part) const;
  [[nodiscard]] std::string ids_of(const Rule& rule, const Deviation& deviation,
                                   const Part& part) const;

  const record::Apart& apart_;
  const Lookups& lookups_;
  RestsOn any_;                    // on which any of the rules rests
  mutable std::string last_code_;  // folded; what was asked last is about that joint
  mutable JointEvidence last_;
};

// FNV-1a, 64 bits, in hexadecimal (Fowler, Noll, Vo; draft-eastlake-fnv). It guards against nothing
// but chance.
[[nodiscard]] std::string fnv1a(std::string_view text);

}  // namespace audit
