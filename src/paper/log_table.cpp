#include "paper/log_table.h"

#include <fmt/format.h>

#include "paper/grid_table.h"
#include "report/line_text.h"

namespace paper {

void write_log_table(Markup& page, const std::vector<record::HistoryLine>& lines) {
  begin_table(page, "Log", {"line", "done", "by", "what it says"});
  for (const auto& line : lines) {
    const auto says = report::line_text(line.content);
    const auto number = std::to_string(line.stamp.line);
    const auto done = record::write_local(line.stamp.done_at);
    if (!line.struck_by) {
      write_row(page, {number, done, line.stamp.by, says});
      continue;
    }
    const auto& strike = *line.struck_by;
    page.open("tr");
    page.element("th", {{"scope", "row"}}, number);
    page.element("td", done).element("td", line.stamp.by);
    page.open("td").element("del", {{"class", "struck"}}, says);
    page.element("div", fmt::format("STRUCK by {} in line {}, {}: {}", strike.by, strike.line,
                                    record::write_local(strike.done_at), line.struck_why));
    page.close().close();
  }
  end_table(page);
}

}  // namespace paper
