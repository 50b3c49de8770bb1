#pragma once

#include <SQLiteCpp/Exception.h>

#include <string>
#include <utility>

#include "failure/failure.h"
#include "logbook/logbook_error.h"

namespace logbook {

// Runs `work` and turns what the SQLite library throws into a LogbookError about this file.
template <class Work>
auto guarded(const std::string& path, Work&& work) {
  try {
    return std::forward<Work>(work)();
  } catch (const SQLite::Exception& error) {
    throw translated(error, path);
  } catch (const failure::InputError& error) {
    // Text that this program wrote it can read; this was not written by it.
    throw LogbookError(LogbookError::Kind::Damaged,
                       path + " holds what cannot be read: " + error.what());
  }
}

}  // namespace logbook
