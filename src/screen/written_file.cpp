#include "screen/written_file.h"

#include <nlohmann/json.hpp>

#include "screen/json_text.h"

namespace screen {

std::string written_file_text(const std::string& file) { return "written: " + file + '\n'; }

std::string written_file_json(const std::string& file) {
  return json_text(kFileWrittenFormat, {{"file", file}});
}

}  // namespace screen
