#include "paper/log_table.h"

#include <fmt/format.h>

#include "paper/grid_table.h"
#include "words/line_text.h"
#include "words/strike_in_words.h"

namespace paper {
namespace {

void write_struck_row(Markup& page, GridTable& table, const LogRow& row) {
  table.begin_row(row.line);
  table.cell(row.done);
  table.cell(row.by);
  table.begin_cell();
  page.element("del", row.says);
  page.element("div", words::struck_mark(*row.struck) + words::strike_in_words(*row.struck));
  table.end_cell();
  table.end_row();
}

}  // namespace

void write_log_rows(Markup& page, std::string_view name, const std::vector<LogRow>& rows) {
  GridTable table(page, name, {"line", "done", "by", "what it says"}, "log");
  for (const auto& row : rows) {
    if (row.struck != nullptr) {
      write_struck_row(page, table, row);
    } else {
      table.row({row.line, row.done, row.by, row.says});
    }
  }
  table.end();
}

LogRow log_row(const record::HistoryLine& line) {
  return {std::to_string(line.stamp.line), record::write_local(line.stamp.done_at), line.stamp.by,
          words::line_text(line.content), line.struck_by ? &line : nullptr};
}

}  // namespace paper
