#include "logbook/copyable_values.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>

#include "failure/failure.h"
#include "logbook/copied_rows.h"
#include "record/logbook_copy.h"
#include "record/moment.h"
#include "record/typed_text.h"

namespace logbook {
namespace {

// As rows/cells.h takes them: the blanks of a line that was typed may be tabs or line ends.
bool is_text(std::string text) {
  std::erase_if(text, [](char c) { return c == '\t' || c == '\n' || c == '\r'; });
  return record::is_one_line(text);
}

bool is_time(const std::string& text) {
  try {
    (void)record::read_utc(text);
    return true;
  } catch (const failure::InputError&) {
    return false;
  }
}

bool can_be_held(const record::ColumnValue& value) {
  if (const auto* text = std::get_if<std::string>(&value)) return is_text(*text);
  const auto* number = std::get_if<double>(&value);
  return number == nullptr || std::isfinite(*number);
}

// Looks at each line that would be copied.
class LooksAtValues : public record::CopyTaker {
 public:
  void begin(const record::CopySize&) override {}
  void end(const std::vector<record::StoredSignature>&, const std::vector<std::string>&) override {}

  void take(const record::StoredLine& line) override {
    if (found) return;
    for (const auto* text : {&line.kind, &line.by, &line.device}) {
      if (!is_text(*text))
        return tell(line, "its stamp holds text with control characters, or that is not UTF-8");
    }
    for (const auto* time : {&line.done_at, &line.entered_at}) {
      if (!is_time(*time)) return tell(line, "its stamp holds a time that is none");
    }
    for (const auto& table : line.tables) {
      for (const auto& row : table.rows) look_at(line, row);
    }
  }

  std::optional<std::string> found;

 private:
  void look_at(const record::StoredLine& line, const record::StoredRow& row) {
    const auto bad =
        std::ranges::find_if(row, [](const auto& cell) { return !can_be_held(cell.second); });
    if (bad == row.end()) return;
    tell(line, fmt::format("{} holds {}", bad->first,
                           std::holds_alternative<double>(bad->second)
                               ? "a number without end"
                               : "text with control characters, or that is not UTF-8"));
  }

  void tell(const record::StoredLine& line, std::string_view why) {
    if (!found) found = fmt::format("line {} ({}): {}", line.line, line.kind, why);
  }
};

}  // namespace

std::optional<std::string> value_no_copy_holds(SQLite::Database& database) {
  LooksAtValues taker;
  read_copy(database, taker);
  return std::move(taker.found);
}

}  // namespace logbook
