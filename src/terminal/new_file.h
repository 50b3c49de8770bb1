#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "terminal/whole_file.h"

namespace terminal {

// Writes a file that was not there before, whole and on the disk when this returns, or not at all.
// Refusal where something of that name is there already; InputError where there is no such folder;
// LogbookError where it cannot be written, as on a full disk.
void write_new_file(const std::string& path, std::string_view content);
void write_new_file(const std::string& path, const Writing& writing);

}  // namespace terminal
