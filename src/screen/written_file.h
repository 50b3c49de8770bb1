#pragma once

#include <string>

namespace screen {

// What every command answers that wrote a file, or a folder of pages, somewhere else than to
// stdout: "written: sheet.html".
[[nodiscard]] std::string written_file_text(const std::string& file);

// {"file"}
[[nodiscard]] std::string written_file_json(const std::string& file);

}  // namespace screen
