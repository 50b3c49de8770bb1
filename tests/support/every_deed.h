#pragma once

#include <string>
#include <vector>

#include "support/temporary_folder.h"

// A command, and what is typed at it where it asks.
struct TypedDeed {
  std::string command;
  std::string typed = {};
};

// Commands that write, of every kind, such as can be typed one after the other: the first starts
// the logbook `path`, and all of them work. What they need of files is made in this folder. Lines
// of every kind stand in the logbook afterwards, and each command that writes one was typed.
[[nodiscard]] std::vector<TypedDeed> every_deed(const TemporaryFolder& folder,
                                                const std::string& path);
