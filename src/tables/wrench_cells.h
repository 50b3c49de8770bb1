#pragma once

#include <string>
#include <vector>

#include "act/adapter_words.h"
#include "record/wrench.h"
#include "tables/table_row.h"

namespace tables {

// What the rows of findings and of tightenings say of the wrench.

// act::OptionError where the column `unit` names another unit than that of the wrench's scale, on
// which settings stand; nothing where it is empty.
void check_scale_unit(const TableRow& row, const record::Wrench& wrench);

// Adds the cells extension, wrench-length and adapter-angle, from the record. Words
// of an earlier version that hold no measures stand whole under extension.
void add_adapter_cells(std::vector<std::string>& row, const record::ThroughAdapter& adapter);

// And reads them.
[[nodiscard]] act::AdapterWords adapter_options_in(const TableRow& row);

}  // namespace tables
