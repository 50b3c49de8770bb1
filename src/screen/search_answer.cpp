#include "screen/search_answer.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <span>

#include "record/concerns.h"
#include "screen/cut_list.h"
#include "screen/history_answer.h"
#include "screen/json_text.h"
#include "words/line_text.h"
#include "words/strike_in_words.h"

namespace screen {
namespace {

constexpr std::size_t kMostFound = 20;

nlohmann::ordered_json found_json(const FoundLine& found) {
  auto row = history_row_json(found.line);
  row["joint"] = record::joint_named(found.line.content);
  row["passage"] = found.passage;
  return row;
}

}  // namespace

std::string search_text(const std::vector<FoundLine>& found, const std::vector<std::string>& see,
                        std::string_view whole, const words::Page& page) {
  std::string text;
  const auto shown = whole.empty() ? found.size() : shown_of(found.size(), kMostFound);
  for (const auto& [line, passage, in_says] : std::span(found).first(shown)) {
    const auto joint = record::joint_named(line.content);
    text += words::wrapped(
        fmt::format("{}{}{}", joint.empty() ? "" : joint + ": ", words::struck_mark(line),
                    in_says ? passage : words::line_text(line.content) + " -- " + passage),
        page.width, words::padded_left(fmt::format("{}  ", line.stamp.line), 6),
        std::string(6, ' '));
  }
  text += and_more(found.size() - shown, whole, page);
  std::string commands;
  for (const auto& command : see) {
    commands += fmt::format("{}\"boltwitness {}\"", commands.empty() ? "" : ", ", command);
  }
  if (!see.empty()) text += words::wrapped("all about it: " + commands, page.width, "", "  ");
  return text;
}

std::string search_json(const std::vector<FoundLine>& found, const std::vector<std::string>& see) {
  auto rows = nlohmann::ordered_json::array();
  for (const auto& line : found) rows.push_back(found_json(line));
  return json_text(kLinesFoundFormat, {{"lines", std::move(rows)}, {"see", see}});
}

std::string search_json_lines(const std::vector<FoundLine>& found) {
  std::string text;
  for (const auto& line : found) text += json_line(kLineFoundFormat, found_json(line));
  return text;
}

}  // namespace screen
