#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "logbook/waiting.h"
#include "record/history_line.h"

namespace logbook {

// Of a large logbook what a question asks for and nothing else, each line that is read held against
// its hash (soundness.h). The file is opened for it and not changed.

// The lines about one joint, and those that are about none, with their strikes, as
// Logbook::history has them.
[[nodiscard]] std::vector<record::HistoryLine> lines_of_joint(const std::string& path,
                                                              std::string_view joint,
                                                              Waiting& waiting);

// The wrench of the test or pull that was done last, as it is named there; empty where none was.
[[nodiscard]] std::string wrench_used_last(const std::string& path, Waiting& waiting);

}  // namespace logbook
