#include "screen/history_answer.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "screen/cut_list.h"
#include "screen/json_text.h"
#include "words/line_text.h"
#include "words/strike_in_words.h"

namespace screen {

namespace {

const std::string kHistoryIndent(6, ' ');
constexpr std::size_t kMostHistory = 60;  // lines

std::string numbered(std::int64_t number, const std::string& says, const words::Page& page) {
  return words::wrapped(says, page.width, words::padded_left(fmt::format("{}  ", number), 6),
                        kHistoryIndent);
}

std::string line_in_history(const record::HistoryLine& line, const words::Page& page) {
  auto text =
      numbered(line.stamp.line,
               fmt::format("{}  {}: {}{}", record::write_local(line.stamp.done_at), line.stamp.by,
                           words::struck_mark(line), words::line_text(line.content)),
               page);
  if (line.struck_by) {
    text += words::wrapped("struck " + words::strike_in_words(line), page.width, kHistoryIndent,
                           kHistoryIndent);
  }
  return text;
}

// Both kinds in the order of the logbook.
template <class Tell>
void in_their_order(const std::vector<record::HistoryLine>& lines,
                    const std::vector<record::UnreadableLine>& unreadable, const Tell& tell) {
  auto next = unreadable.begin();
  for (const auto& line : lines) {
    for (; next != unreadable.end() && next->line < line.stamp.line; ++next) tell(*next);
    tell(line);
  }
  for (; next != unreadable.end(); ++next) tell(*next);
}

nlohmann::ordered_json unreadable_row_json(const record::UnreadableLine& line) {
  return {{"line", line.line},
          {"id", line.id},
          {"kind", line.kind},
          {"why", line.why},
          {"struck", line.struck}};
}

std::string line_in_history(const record::UnreadableLine& line, const words::Page& page) {
  return numbered(
      line.line,
      fmt::format("{}cannot be read ({}): {}", line.struck ? "STRUCK " : "", line.kind, line.why),
      page);
}

}  // namespace

std::string history_text(const std::vector<record::HistoryLine>& lines, const words::Page& page) {
  return history_text(lines, {}, {}, page);
}

std::string history_text(const std::vector<record::HistoryLine>& lines,
                         const std::vector<record::UnreadableLine>& unreadable,
                         std::string_view whole, const words::Page& page) {
  const auto all = lines.size() + unreadable.size();
  const auto left_out = whole.empty() || all <= kMostHistory ? 0 : all - kMostHistory;
  std::string text = and_more(left_out, whole, page);
  std::size_t told = 0;
  in_their_order(lines, unreadable, [&](const auto& line) {
    if (++told > left_out) text += line_in_history(line, page);
  });
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
                     {"why", line.struck_why},
                     {"as_written", !line.is_altered},
                     {"again", nlohmann::ordered_json::array()}};
    for (const auto& again : line.struck_again) {
      row["struck"]["again"].push_back({{"line", again.by.line},
                                        {"by", again.by.by},
                                        {"done_at", record::write_utc(again.by.done_at)},
                                        {"why", again.why}});
    }
  }
  return row;
}

namespace {

std::string alone(const record::HistoryLine& line) {
  return json_line(kLineFormat, history_row_json(line));
}

std::string alone(const record::UnreadableLine& line) {
  return json_line(kLineUnreadableFormat, unreadable_row_json(line));
}

}  // namespace

nlohmann::ordered_json history_rows_json(const std::vector<record::HistoryLine>& lines) {
  auto rows = nlohmann::ordered_json::array();
  for (const auto& line : lines) rows.push_back(history_row_json(line));
  return rows;
}

nlohmann::ordered_json unreadable_rows_json(const std::vector<record::UnreadableLine>& lines) {
  auto rows = nlohmann::ordered_json::array();
  for (const auto& line : lines) rows.push_back(unreadable_row_json(line));
  return rows;
}

std::string history_json(const std::vector<record::HistoryLine>& lines,
                         const std::vector<record::UnreadableLine>& unreadable) {
  return json_text(kHistoryFormat, {{"lines", history_rows_json(lines)},
                                    {"unreadable", unreadable_rows_json(unreadable)}});
}

std::string history_json_lines(const std::vector<record::HistoryLine>& lines,
                               const std::vector<record::UnreadableLine>& unreadable) {
  std::string text;
  in_their_order(lines, unreadable, [&](const auto& line) { text += alone(line); });
  return text;
}

}  // namespace screen
