#pragma once

#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "finding/survey.h"
#include "plan/decided.h"

namespace progress {

// A joint that covers another, and the line that closed it over that.
struct CoverOn {
  const finding::JointState* cover = nullptr;
  const record::Stamp* closed = nullptr;
  bool never_off = false;  // the line is the decision that it never came off
};

// Those of the joints that cover this one of which something is in, as far as is recorded: of what
// never came out too, since a machine comes in with its covers on. In the order of their entry;
// positions that were decided to be left as they are count for nothing.
[[nodiscard]] std::vector<const finding::JointState*> covers_to_open(const record::Job& job,
                                                                     const finding::Survey& survey,
                                                                     std::string_view joint);

// "J02 covers J01 and comes off first; where it is off, record it: out J02/1-4".
[[nodiscard]] std::string comes_off_first(const finding::JointState& cover, std::string_view joint);
// "J02 covers J01 and was on then (line 12): record it as out where it was off".
[[nodiscard]] std::string in_words(const CoverOn& on, std::string_view joint);

// When the joints that cover others (record::Joint::covers) were on, going by what was recorded of
// their fasteners: closed by the work after which none of them was out, open once all of them are
// out. In between it stays as it was, and before the first such work nothing is said: a machine
// comes in with its covers on, and not every one of them is taken off in the logbook. Positions
// that were decided to be left as they are count for nothing. One of which it was decided that it
// never came out was on from the first.
class CoverTimes {
 public:
  // Points into `job` and `survey`.
  CoverTimes(const record::Job& job, const finding::Survey& survey, const plan::Decided& decided);

  // Those that were on over this joint when this line was done, in the order of their entry.
  [[nodiscard]] std::vector<CoverOn> over(std::string_view joint, const record::Stamp& line) const;

  // The same at a moment, after every line that is dated so.
  [[nodiscard]] std::vector<CoverOn> over(std::string_view joint, record::Moment moment) const;

  // The joints that cover this one and of which nothing ever came out, as far as is recorded and
  // nothing was decided of it, in the order of their entry.
  [[nodiscard]] std::vector<const finding::JointState*> never_off_over(
      std::string_view joint) const;

  // The command that takes out what is in of the outermost cover that is on over this joint at this
  // moment; empty where none is on.
  [[nodiscard]] std::string command_to_open(std::string_view joint, record::Moment moment) const;

 private:
  struct Closed {
    const record::Stamp* from = nullptr;
    const record::Stamp* to = nullptr;  // none where it has not been opened since
  };
  struct Cover {
    const finding::JointState* state = nullptr;
    std::vector<Closed> closed;                // by time
    const record::Stamp* never_off = nullptr;  // the decision that says so; it is on all the time
  };

  template <class IsBefore>
  [[nodiscard]] std::vector<CoverOn> on(std::string_view joint, IsBefore&& is_before) const;

  std::unordered_map<std::string, std::vector<Cover>> over_;  // by folded code of the covered
  std::unordered_map<const finding::JointState*, std::vector<int>> in_;  // of each cover, after all
  // By folded code of the covered, those that never came off.
  std::unordered_map<std::string, std::vector<const finding::JointState*>> untouched_;
};

}  // namespace progress
