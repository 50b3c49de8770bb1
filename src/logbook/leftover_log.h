#pragma once

#include <string>

namespace logbook {

// Before a logbook is opened beside which a killed program left a write-ahead log (`-wal`): SQLite
// plays that into the file at once, whatever file lies there by now. So both are looked at first,
// the file alone and with the log, and nothing is changed. LogbookError (Damaged) where the file is
// sound by itself and the log would take lines from it, mix it with another or leave it unsound.
// A log that another program is at work with is its own. `file` is the real one, from the root of
// the disk; `named` is what messages call it.
void check_leftover_log(const std::string& file, const std::string& named);

}  // namespace logbook
