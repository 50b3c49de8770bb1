#pragma once

#include <string>
#include <vector>

#include "record/entry.h"

namespace tables {

// Adds the cells `by` and `at` with which every row of a table ends, as Intake reads them.
inline void add_stamp_cells(std::vector<std::string>& row, const record::Stamp& stamp) {
  row.push_back(stamp.by);
  row.push_back(record::write_utc(stamp.done_at));
}

}  // namespace tables
