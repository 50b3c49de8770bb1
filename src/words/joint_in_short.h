#pragma once

#include <string>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "audit/audit.h"
#include "progress/open_list.h"
#include "words/taking_apart.h"

namespace words {

// What somebody in front of a joint asks first.
struct JointInShort {
  std::string where;  // its fasteners: "in", "C1", "1-4 in, 5-8 C1", "out" where no bag was named
  std::string
      next;  // the wrench and its setting, or what else the hand does next; "settle", "done"
  std::string see_to;  // "5 found-low, 3 renew": to be settled, or decided and not done; or empty
};

// "where C1; next TW2 at 34 N·m; see to 5 found-low", as the columns of the first screen are named.
[[nodiscard]] std::string in_words(const JointInShort& joint);

// Where the fasteners of these positions are: "in", "C1", "1-4 in, 5-8 C1"; "empty" where the hole
// was found so and nothing has gone in.
[[nodiscard]] std::string where_they_are(const finding::JointState& joint,
                                         const std::vector<int>& positions,
                                         const TakingApart& apart);

// All that is asked of one joint. While it is still being taken apart, or never was, that is the
// test and not yet a pass.
class JointsInShort {
 public:
  JointsInShort(const progress::Reassembly& reassembly,
                const std::vector<progress::OpenPoint>& open, const audit::Audit& audit,
                record::Day day);

  [[nodiscard]] JointInShort of(const finding::JointState& joint) const;

  // The machine is still being taken apart (TakingApart::goes_on).
  [[nodiscard]] bool is_taken_apart() const { return goes_on_; }

 private:
  [[nodiscard]] std::string next_of(const finding::JointState& joint) const;
  [[nodiscard]] std::string see_to(const finding::JointState& joint) const;

  const progress::Reassembly& reassembly_;
  record::Day day_;
  // Of each joint, by folded code, so that none is looked for among those of all others.
  std::unordered_map<std::string, std::vector<const progress::OpenPoint*>> open_of_;
  std::unordered_map<std::string, std::vector<std::string>> see_to_of_;
  // Of which merged copies say what contradicts and holds them up, by folded code.
  std::unordered_set<std::string> disputed_;
  TakingApart apart_;
  bool goes_on_;
};

}  // namespace words
