#include "report/written_file.h"

#include <nlohmann/json.hpp>

#include "report/json_text.h"

namespace report {

std::string written_file_text(const std::string& file) { return "written: " + file + '\n'; }

std::string written_file_json(const std::string& file) { return json_text({{"file", file}}); }

}  // namespace report
