#include "screen/history_answer.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "screen/json_text.h"
#include "words/line_text.h"
#include "words/strike_in_words.h"
#include "words/strike_in_words.h"

namespace screen {

std::string history_text(const std::vector<record::HistoryLine>& lines, const words::Page& page) {
  const std::string indent(6, ' ');
  std::string text;
  for (const auto& line : lines) {
    text += words::wrapped(
        fmt::format("{}  {}: {}{}", record::write_local(line.stamp.done_at), line.stamp.by,
                    line.struck_by ? "STRUCK " : "", words::line_text(line.content)),
        page.width, words::padded_left(fmt::format("{}  ", line.stamp.line), 6), indent);
    if (line.struck_by) {
      text += words::wrapped("struck " + words::strike_in_words(line), page.width, indent, indent);
    }
  }
  return text;
}

nlohmann::ordered_json history_row_json(const record::HistoryLine& line) {
  nlohmann::ordered_json row = {{"line", line.stamp.line},
                                {"id", line.stamp.id},
                                {"done_at", record::write_utc(line.stamp.done_at)},
                                {"entered_at", record::write_utc(line.stamp.entered_at)},
                                {"by", line.stamp.by},
                                {"says", words::line_text(line.content)},
                                {"struck", nullptr}};
  if (line.struck_by) {
    row["struck"] = {{"line", line.struck_by->line},
                     {"by", line.struck_by->by},
                     {"done_at", record::write_utc(line.struck_by->done_at)},
                     {"why", line.struck_why}};
  }
  return row;
}

nlohmann::ordered_json history_rows_json(const std::vector<record::HistoryLine>& lines) {
  auto rows = nlohmann::ordered_json::array();
  for (const auto& line : lines) rows.push_back(history_row_json(line));
  return rows;
}

std::string history_json(const std::vector<record::HistoryLine>& lines) {
  return json_text({{"lines", history_rows_json(lines)}});
}

}  // namespace screen
