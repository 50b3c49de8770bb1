#pragma once

#include <string>
#include <vector>

#include "support/temporary_folder.h"

// Commands that write, of every kind, such as can be typed one after the other: the first starts
// the logbook `path`, and all of them work. What they need of files is made in this folder.
[[nodiscard]] std::vector<std::string> every_deed(const TemporaryFolder& folder,
                                                  const std::string& path);
