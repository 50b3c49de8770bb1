#include "screen/search_answer.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "record/concerns.h"
#include "screen/history_answer.h"
#include "screen/json_text.h"
#include "words/line_text.h"

namespace screen {

std::string search_text(const std::vector<FoundLine>& found, const std::vector<std::string>& see,
                        const words::Page& page) {
  std::string text;
  for (const auto& [line, passage, in_says] : found) {
    const auto joint = record::joint_named(line->content);
    text += words::wrapped(
        fmt::format("{}{}{}", joint.empty() ? "" : joint + ": ", line->struck_by ? "STRUCK " : "",
                    in_says ? passage : words::line_text(line->content) + " -- " + passage),
        page.width, words::padded_left(fmt::format("{}  ", line->stamp.line), 6),
        std::string(6, ' '));
  }
  std::string commands;
  for (const auto& command : see) {
    commands += fmt::format("{}\"boltwitness {}\"", commands.empty() ? "" : ", ", command);
  }
  if (!see.empty()) text += words::wrapped("all about it: " + commands, page.width, "", "  ");
  return text;
}

std::string search_json(const std::vector<FoundLine>& found, const std::vector<std::string>& see) {
  auto rows = nlohmann::ordered_json::array();
  for (const auto& [line, passage, in_says] : found) {
    auto row = history_row_json(*line);
    row["joint"] = record::joint_named(line->content);
    row["passage"] = passage;
    rows.push_back(std::move(row));
  }
  return json_text({{"lines", std::move(rows)}, {"see", see}});
}

}  // namespace screen
