#pragma once

#include "record/through_adapter.h"

namespace SQLite {
class Database;
class Statement;
}  // namespace SQLite

namespace logbook {

// The columns that say through which adapter a line's settings went: its measures with their units
// and as typed, what it does to a torque, and under `adapter` the words of an earlier version that
// could not be read as measures. Both tables that have them name them alike.
inline constexpr const char* kAdapterColumns =
    "adapter_ratio, adapter, adapter_extension_mm, adapter_wrench_length_mm, adapter_angle_deg, "
    "adapter_extension_typed, adapter_wrench_length_typed, adapter_angle_typed";
inline constexpr const char* kAdapterValues =
    ":adapter_ratio, :adapter, :extension_mm, :wrench_length_mm, :angle_deg, :extension_typed, "
    ":wrench_length_typed, :angle_typed";

// Binds kAdapterValues.
void bind_adapter(SQLite::Statement& row, const record::ThroughAdapter& adapter);

// Reads them, the first one standing in this column. InputError where they contradict each other.
[[nodiscard]] record::ThroughAdapter adapter_at(SQLite::Statement& row, int first_column);

// Fills the columns of measures from the words that versions before schema 8 kept alone. Words that
// were not made from measures, or whose measures do not come to the ratio beside them, stay as they
// are. Runs inside the transaction of that schema step.
void measure_adapters(SQLite::Database& database);

}  // namespace logbook
