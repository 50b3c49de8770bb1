#include "screen/written_lines.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "screen/json_text.h"
#include "words/written_line.h"

namespace screen {

std::string written_text(const std::vector<words::WrittenLine>& lines, const words::Page& page) {
  std::string text;
  for (const auto& line : lines) {
    text += words::wrapped(fmt::format("line {}: {}", line.stamp.line, line.says), page.width, "",
                           "  ");
  }
  return text;
}

std::string written_json(const std::vector<words::WrittenLine>& lines) {
  auto rows = nlohmann::ordered_json::array();
  for (const auto& line : lines) {
    rows.push_back({{"line", line.stamp.line}, {"id", line.stamp.id}, {"says", line.says}});
  }
  return json_text(kLinesWrittenFormat, {{"lines", std::move(rows)}});
}

}  // namespace screen
