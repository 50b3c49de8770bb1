#pragma once

#include <string>
#include <vector>

#include "record/content.h"
#include "record/history_line.h"
#include "record/unreadable_line.h"

namespace logbook {

// What the history of all lines and that of one joint have in common.

// Puts a strike to the line that it struck: the first strikes it, one of another copy strikes it
// again.
void add_strike(record::HistoryLine& line, record::Entry<record::Strike> strike);

// LogbookError (Damaged) where there is any: its number, the value and how to strike it.
void refuse_if_any(const std::string& path, const std::vector<record::UnreadableLine>& unreadable);

}  // namespace logbook
