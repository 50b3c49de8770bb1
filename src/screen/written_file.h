#pragma once

#include <string>

namespace screen {

// Tells which file was written: "written: sheet.html".
[[nodiscard]] std::string written_file_text(const std::string& file);

// {"file"}
[[nodiscard]] std::string written_file_json(const std::string& file);

}  // namespace screen
