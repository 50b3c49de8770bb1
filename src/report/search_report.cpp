#include "report/search_report.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "record/concerns.h"
#include "report/history_report.h"
#include "report/json_text.h"
#include "report/line_text.h"

namespace report {
namespace {

std::string besides(const record::Specified& specified) { return specified.typed; }
std::string besides(const record::Wrench& wrench) { return wrench.serial; }
template <class Other>
std::string besides(const Other&) {
  return {};
}

}  // namespace

std::string typed_besides(const record::Content& content) {
  return std::visit([](const auto& kind) { return besides(kind); }, content);
}

std::string search_text(const std::vector<FoundLine>& found, const std::vector<std::string>& see,
                        const Page& page) {
  std::string text;
  for (const auto& [line, snippet, in_says] : found) {
    const auto joint = record::joint_named(line->content);
    text += wrapped(
        fmt::format("{}{}{}", joint.empty() ? "" : joint + ": ", line->struck_by ? "STRUCK " : "",
                    in_says ? snippet : line_text(line->content) + " -- " + snippet),
        page.width, padded_left(fmt::format("{}  ", line->stamp.line), 6), std::string(6, ' '));
  }
  std::string commands;
  for (const auto& command : see) {
    commands += fmt::format("{}\"boltwitness {}\"", commands.empty() ? "" : ", ", command);
  }
  if (!see.empty()) text += wrapped("all about it: " + commands, page.width, "", "  ");
  return text;
}

std::string search_json(const std::vector<FoundLine>& found, const std::vector<std::string>& see) {
  auto rows = nlohmann::ordered_json::array();
  for (const auto& [line, snippet, in_says] : found) {
    auto row = history_row_json(*line);
    row["joint"] = record::joint_named(line->content);
    row["snippet"] = snippet;
    rows.push_back(std::move(row));
  }
  return json_text({{"lines", std::move(rows)}, {"see", see}});
}

}  // namespace report
