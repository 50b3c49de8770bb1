#pragma once

#include <map>
#include <string>
#include <string_view>
#include <utility>

#include "record/job.h"

namespace plan {

// The looks that found a final stripe turned. Such a fastener does not heal by being striped anew:
// it is slackened, looked at, brought to its final value and striped again (common practice, no
// source); a self-locking one is replaced, not tightened (US Army TB 43-0218).
class TurnedStripes {
 public:
  // Points into `job`.
  explicit TurnedStripes(const record::Job& job);

  // The last such look at this position; nothing where there is none.
  [[nodiscard]] const record::Entry<record::Recheck>* last(std::string_view joint,
                                                           int position) const;

  // The same, where the fastener has not come out since: then the plan still leads through it.
  [[nodiscard]] const record::Entry<record::Recheck>* since_out(
      std::string_view joint, int position, const record::Entry<record::Removal>* removal) const;

 private:
  // By folded code and position.
  std::map<std::pair<std::string, int>, const record::Entry<record::Recheck>*> last_;
};

}  // namespace plan
