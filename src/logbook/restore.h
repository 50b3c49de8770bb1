#pragma once

#include <functional>
#include <string>

#include "record/logbook_copy.h"

namespace logbook {

using LineWritten = std::function<void(const record::StoredLine& line)>;

// Makes a new logbook that holds exactly the lines of the copy: ids, numbers and times are kept. A
// copy of an earlier schema is brought up to date as a logbook of that version would be. Before the
// file gets its name everything in it is read back as any command would read it.
// LogbookError (Exists) where the file is there already; InputError, saying at which place of the
// copy ("/lines/3/rows/joint/0"), where it contradicts itself or the schema. Either way nothing is
// left behind. `line_written` is called after each line.
void restore_logbook(const std::string& path, const record::CopySource& copy,
                     const LineWritten& line_written);

// The same without making the logbook: only the errors.
void check_restorable(const std::string& path, const record::CopySource& copy,
                      const LineWritten& line_written);

}  // namespace logbook
