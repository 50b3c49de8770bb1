#pragma once

#include <SQLiteCpp/Exception.h>

#include <string>
#include <utility>

#include "logbook/logbook_error.h"

namespace logbook {

// Runs `work` and turns what the SQLite library throws into a LogbookError about this file. It says
// nothing of what was or was not written: whoever looks something up may have written before.
template <class Work>
auto guarded(const std::string& path, Work&& work) {
  try {
    return std::forward<Work>(work)();
  } catch (const SQLite::Exception& error) {
    throw translated(error, path);
  }
}

// The same for lines that are being written and are undone where it throws. InputError for what the
// schema refuses, LogbookError for all else; the message says that this was not written.
template <class Work>
auto guarded_write(const std::string& path, Work&& work) {
  try {
    return std::forward<Work>(work)();
  } catch (const SQLite::Exception& error) {
    throw_not_written(error, path);
  }
}

}  // namespace logbook
