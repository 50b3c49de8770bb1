#pragma once

#include <map>
#include <string>
#include <vector>

#include "paper/log_table.h"

namespace paper {

// The log spread over the joints: what was done to their fasteners, out and back.
class JointLog {
 public:
  explicit JointLog(const std::vector<record::HistoryLine>& lines);

  // Removals, new fasteners, tightenings, stripes and re-checks of a joint, in the order of their
  // entry. Neighbours that say the same of different positions, by the same person, stand in one
  // row with all of them; a struck line stands alone.
  [[nodiscard]] std::vector<LogRow> rows_of(std::string_view joint) const;

 private:
  std::map<std::string, std::vector<const record::HistoryLine*>> lines_;  // by folded code
};

}  // namespace paper
