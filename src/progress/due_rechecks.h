#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "finding/survey.h"
#include "progress/progress.h"
#include "record/pass_rule.h"
#include "record/recheck_interval.h"

namespace progress {

// A look at final stripes that has to be taken, now or later.
struct DueRecheck {
  const record::Joint* joint = nullptr;
  std::vector<int> positions;            // rising; those that count from the same line
  const record::Stamp* since = nullptr;  // the final stripe, or the last look
  bool since_stripe = true;
  std::optional<quantity::Angle> turned;  // the last look found it turned, and no new stripe since
  std::optional<record::RecheckInterval> after;  // nothing where it has turned
  const record::PassRule* rule = nullptr;  // that asks for it; none where the joint itself does
  std::optional<record::Moment> due_at;    // an interval by the clock
  // An interval by the machine's counter: the reading at which it is due, and the reading now. The
  // first is nothing where none was noted at the stripe or the look, the second where none is
  // known.
  std::optional<record::RunningAmount> due_reading;
  std::optional<record::RunningAmount> reading;
  bool is_overdue = false;

  // A look that repeats, after the first one was taken.
  [[nodiscard]] bool is_again() const { return after && after->repeats && !since_stripe; }
};

// The looks at each position.
class Looks {
 public:
  explicit Looks(const record::Job& job);

  // Those at this position since this stripe, in the order done.
  [[nodiscard]] std::vector<const record::Entry<record::Recheck>*> since(
      const record::Entry<record::FinalStripe>& stripe, std::string_view joint, int position) const;

 private:
  // By folded code and position, each in the order done.
  std::map<std::pair<std::string, int>, std::vector<const record::Entry<record::Recheck>*>> all_;
};

// What the joints' own re-check intervals ask for. One that is asked for once is counted from the
// final stripe and met by a look that found it aligned and was taken no sooner; one that repeats is
// counted from the last such look. The dwell of the pass rule that the joint names
// (record/pass_rule.h) is met once too. Where the stripe has no counter reading, the first look
// that has one stands in for it. A stripe found turned is overdue until a new one stands for the
// final value (progress.h). Without a counter reading the highest one on record stands in: the
// machine cannot have run less. Overdue ones first, turned ones before them; then by the day they
// are due, then those by the counter.
[[nodiscard]] std::vector<DueRecheck> due_rechecks(
    const record::Job& job, const finding::Survey& survey, const Progress& progress,
    record::Moment now, const std::optional<record::RunningAmount>& reading);

}  // namespace progress
