#pragma once

#include <string>
#include <vector>

#include "cli/adapter_options.h"
#include "cli/sheet_row.h"
#include "record/wrench.h"

namespace cli {

// What the rows of findings and of tightenings say of the wrench.

// OptionError where the column `unit` names another unit than that of the wrench's scale, on which
// settings stand; nothing where it is empty.
void check_scale_unit(const SheetRow& row, const record::Wrench& wrench);

// Adds the cells extension, wrench-length and adapter-angle, from the record. Words
// that were not made from such options stand whole under extension.
void add_adapter_cells(std::vector<std::string>& row, const record::ThroughAdapter& adapter);

// And reads them.
[[nodiscard]] AdapterOptions adapter_options_in(const SheetRow& row);

}  // namespace cli
