#pragma once

#include <string>

#include "paper/document.h"
#include "record/logbook_start.h"
#include "terminal/whole_file.h"

namespace CLI {
class App;
}

namespace logbook {
class Logbook;
}

namespace terminal {
class Session;
}

namespace cli {

// Where a page goes and on what paper.
struct PageOptions {
  std::string out;   // empty or "-" for stdout
  std::string size;  // empty for A4
  bool replace_file = false;
};

// What they stand under in the help of a command.
inline constexpr const char* kPageGroup = "As a page";

void declare_page_options(CLI::App& command, PageOptions& options);

// True where any of them was given.
[[nodiscard]] bool names_page(const PageOptions& options);

// A4 where none is named. InputError for one that there is not.
[[nodiscard]] paper::PaperSize paper_size_of(const PageOptions& options);

// What stands at the foot of a page: InputError for a paper size that is none.
[[nodiscard]] paper::Imprint imprint_for(const PageOptions& options,
                                         const record::LogbookStart& start,
                                         const logbook::Logbook& logbook,
                                         const terminal::Session& session);

// Gives the page out: to stdout, or to a file, which then is named on stdout. The file is written
// beside its place and takes it when it is whole, so that none is ever seen half-written. Refusal
// where something lies there that is no page of ours, unless --replace-file is given; a logbook is
// never replaced. InputError where there is no such folder, OutputLost where it cannot be written.
void give_out(const std::string& page, const PageOptions& options,
              const terminal::Session& session);

// The same for a page that is handed over piece by piece.
void give_out(const terminal::Writing& page, const PageOptions& options,
              const terminal::Session& session);

}  // namespace cli
