#include "screen/search_answer.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <span>

#include "record/concerns.h"
#include "screen/cut_list.h"
#include "screen/history_answer.h"
#include "screen/json_text.h"
#include "words/line_text.h"

namespace screen {
namespace {

constexpr std::size_t kMostFound = 20;

}  // namespace

std::string search_text(const std::vector<FoundLine>& found, const std::vector<std::string>& see,
                        std::string_view whole, const words::Page& page) {
  std::string text;
  const auto shown = whole.empty() ? found.size() : shown_of(found.size(), kMostFound);
  for (const auto& [line, passage, in_says] : std::span(found).first(shown)) {
    const auto joint = record::joint_named(line->content);
    text += words::wrapped(
        fmt::format("{}{}{}", joint.empty() ? "" : joint + ": ", line->struck_by ? "STRUCK " : "",
                    in_says ? passage : words::line_text(line->content) + " -- " + passage),
        page.width, words::padded_left(fmt::format("{}  ", line->stamp.line), 6),
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
  for (const auto& [line, passage, in_says] : found) {
    auto row = history_row_json(*line);
    row["joint"] = record::joint_named(line->content);
    row["passage"] = passage;
    rows.push_back(std::move(row));
  }
  return json_text({{"lines", std::move(rows)}, {"see", see}});
}

}  // namespace screen
