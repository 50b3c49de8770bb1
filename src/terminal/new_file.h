#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "terminal/whole_file.h"

namespace terminal {

// Refusal where no new file may have this name: it is that of a logbook or of a part of one
// (logbook/beside_file.h), or something of that name is there already.
void check_new_file(const std::string& path);

// Writes a file that was not there before, whole and on the disk when this returns, or not at all.
// Refusal as by check_new_file; InputError where there is no such folder;
// LogbookError where it cannot be written, as on a full disk.
void write_new_file(const std::string& path, std::string_view content);
void write_new_file(const std::string& path, const Writing& writing);

}  // namespace terminal
