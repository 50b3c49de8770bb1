#pragma once

#include <string>

namespace CLI {
class App;
}

namespace cli {

// Writes the pages for man(1) into this folder, which has to be there: boltwitness.1, one for each
// command, boltwitness-logbook.5 about the file and boltwitness-method.7 about the figures. The
// same program writes the same bytes. InputError where there is no such folder; OutputLost or
// LogbookError where they cannot be written.
void write_man_pages(const CLI::App& app, const std::string& folder);

}  // namespace cli
