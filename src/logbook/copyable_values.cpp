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

constexpr const char* kNoText = "text with control characters, or that is not UTF-8";

// Thrown to end the look.
struct Found {
  ValueNoCopyHolds value;
};

// Looks at each line that would be copied, until one holds what no copy does.
class LooksAtValues : public record::CopyTaker {
 public:
  void begin(const record::CopySize&) override {}
  void end(const std::vector<record::StoredSignature>& signatures,
           const std::vector<std::string>&) override {
    const auto bad =
        std::ranges::find_if(signatures, [](const auto& each) { return !is_text(each.by); });
    if (bad == signatures.end()) return;
    throw Found{
        {fmt::format("the signature with the key {}: by_whom holds {}", bad->public_key, kNoText),
         false}};
  }

  void take(const record::StoredLine& line) override {
    for (const auto* text : {&line.id, &line.kind, &line.by, &line.device}) {
      if (!is_text(*text)) tell(line, fmt::format("its stamp holds {}", kNoText));
    }
    for (const auto* time : {&line.done_at, &line.entered_at}) {
      if (!is_time(*time)) tell(line, "its stamp holds a time that is none");
    }
    if (line.hash && !is_text(line.hash->later)) {
      tell(line, fmt::format("when it got its hash holds {}", kNoText));
    }
    for (const auto& table : line.tables) {
      for (const auto& row : table.rows) look_at(line, row);
    }
  }

 private:
  static void look_at(const record::StoredLine& line, const record::StoredRow& row) {
    const auto bad =
        std::ranges::find_if(row, [](const auto& cell) { return !can_be_held(cell.second); });
    if (bad == row.end()) return;
    tell(line, fmt::format(
                   "{} holds {}", bad->first,
                   std::holds_alternative<double>(bad->second) ? "a number without end" : kNoText));
  }

  [[noreturn]] static void tell(const record::StoredLine& line, std::string_view why) {
    throw Found{{fmt::format("line {} ({}): {}", line.line, line.kind, why), line.struck}};
  }
};

}  // namespace

std::optional<ValueNoCopyHolds> value_no_copy_holds(SQLite::Database& database) {
  try {
    LooksAtValues taker;
    read_copy(database, taker);
    return std::nullopt;
  } catch (Found& found) {
    return std::move(found.value);
  }
}

}  // namespace logbook
