#include "exchange/csv.h"

#include <fmt/format.h>
#include <utf8proc.h>

#include <algorithm>
#include <utility>

#include "quantity/ascii.h"

namespace exchange {
namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
constexpr char kQuote = '"';
constexpr char kComma = ',';
constexpr char kSemicolon = ';';

// The separator of the first line: see read_csv.
char separator_of(std::string_view text) {
  bool in_quotes = false;
  bool has_semicolon = false;
  for (const char c : text) {
    if (c == kQuote) in_quotes = !in_quotes;
    if (in_quotes) continue;
    if (c == kComma) return kComma;
    if (c == '\n') break;
    has_semicolon = has_semicolon || c == kSemicolon;
  }
  return has_semicolon ? kSemicolon : kComma;
}

// What a cell may not hold; empty where it is clean. Line ends are the text's own.
std::string_view unclean(std::string_view cell) {
  const auto* at = reinterpret_cast<const utf8proc_uint8_t*>(cell.data());
  auto left = static_cast<utf8proc_ssize_t>(cell.size());
  while (left > 0) {
    utf8proc_int32_t point = 0;
    const auto used = utf8proc_iterate(at, left, &point);
    if (used <= 0) return "holds bytes that are not UTF-8; save the file as UTF-8";
    const bool is_line_end = point == '\n' || point == '\r';
    if (!is_line_end && utf8proc_category(point) == UTF8PROC_CATEGORY_CC) {
      return "holds a control character; take it out";
    }
    at += used;
    left -= used;
  }
  return {};
}

// What a spreadsheet computes, or hands to another program, where a cell begins with it.
bool begins_formula(std::string_view cell) {
  constexpr std::string_view kBeginnings[] = {"=",  "+",      "-",      "@",      "\t",
                                              "\r", "\uFF1D", "\uFF0B", "\uFF0D", "\uFF20"};
  return std::ranges::any_of(
      kBeginnings, [&](std::string_view beginning) { return cell.starts_with(beginning); });
}

// "-90" or "+3,5".
bool is_plain_number(std::string_view cell) {
  if (cell.starts_with('+') || cell.starts_with('-')) cell.remove_prefix(1);
  const auto is_part = [](char c) { return (c >= '0' && c <= '9') || c == '.' || c == ','; };
  return !cell.empty() && cell.front() >= '0' && cell.front() <= '9' &&
         std::ranges::all_of(cell, is_part);
}

constexpr char kGuard = '\'';

// The cell behind any number of guards.
std::string_view unguarded(std::string_view cell) {
  return cell.substr(std::min(cell.size(), cell.find_first_not_of(kGuard)));
}

bool needs_guard(std::string_view cell) {
  return begins_formula(unguarded(cell)) && !is_plain_number(cell);
}

// What was written for a cell that needed a guard.
bool is_guarded(std::string_view cell) {
  return cell.starts_with(kGuard) && needs_guard(cell.substr(1));
}

class Reader {
 public:
  explicit Reader(std::string_view text) : rest_(text) {
    if (rest_.starts_with(kByteOrderMark)) rest_.remove_prefix(kByteOrderMark.size());
    separator_ = separator_of(rest_);
    if (separator_ == kSemicolon) result_.decimals = Decimals::Comma;
  }

  CsvText read() && {
    while (!rest_.empty()) {
      if (!take_line_end()) read_row();
    }
    return std::move(result_);
  }

 private:
  void read_row() {
    row_.clear();
    do {
      row_.push_back({"", line_});
      read_cell();
      if (is_guarded(row_.back().text)) row_.back().text.erase(0, 1);
      if (const auto why = unclean(row_.back().text); !why.empty()) fault(why);
    } while (take(separator_));
    if (!rest_.empty()) (void)take_line_end();
    result_.rows.push_back(std::move(row_));
  }

  void read_cell() {
    const bool was_quoted = take(kQuote);
    if (was_quoted) read_quoted();
    bool is_told = false;
    while (!rest_.empty() && rest_.front() != separator_ && !at_line_end()) {
      const char c = rest_.front();
      if (const auto why = why_not(c, was_quoted); !is_told && !why.empty()) {
        fault(why);
        is_told = true;
      }
      row_.back().text += c;
      rest_.remove_prefix(1);
    }
  }

  // Why a character may not stand where no quotes are open; empty where it may.
  static std::string_view why_not(char c, bool behind_quotes) {
    if (behind_quotes) {
      return "text behind the closing quote; expected a separator or the end of the line";
    }
    if (c == kQuote) {
      return "a quote inside a cell without quotes; put the whole cell in quotes and double each "
             "quote inside it";
    }
    if (c == '\r') return "a line end of CR alone; save the file with line ends of LF or CR LF";
    return {};
  }

  // From behind the opening quote to behind the closing one.
  void read_quoted() {
    const auto opened_on = line_;
    auto& text = row_.back().text;
    while (!rest_.empty()) {
      if (take(kQuote) && !rest_.starts_with(kQuote)) return;
      if (rest_.front() == '\n') ++line_;
      text += rest_.front();
      rest_.remove_prefix(1);
    }
    fault(fmt::format("the quote that opens on line {} is never closed", opened_on));
  }

  bool take(char c) {
    if (rest_.empty() || rest_.front() != c) return false;
    rest_.remove_prefix(1);
    return true;
  }

  [[nodiscard]] bool at_line_end() const {
    return rest_.starts_with('\n') || rest_.starts_with("\r\n");
  }

  bool take_line_end() {
    if (!at_line_end()) return false;
    rest_.remove_prefix(rest_.front() == '\r' ? 2 : 1);
    ++line_;
    return true;
  }

  void fault(std::string_view why) {
    result_.faults.push_back({row_.front().line, row_.size(), std::string(why)});
  }

  std::string_view rest_;
  char separator_ = kComma;
  std::size_t line_ = 1;
  CsvRow row_;
  CsvText result_;
};

bool needs_quotes(std::string_view cell, Decimals decimals) {
  // In quotes a byte order mark is not taken for that of the whole text.
  return cell.find_first_of(decimals == Decimals::Comma ? "\";\r\n" : "\",;\r\n") !=
             std::string_view::npos ||
         cell.starts_with(kByteOrderMark);
}

// `from` between two digits turned into `to`.
std::string with_mark(std::string cell, char from, char to) {
  for (std::size_t i = 1; i + 1 < cell.size(); ++i) {
    if (cell[i] == from && quantity::is_digit(cell[i - 1]) && quantity::is_digit(cell[i + 1])) {
      cell[i] = to;
    }
  }
  return cell;
}

}  // namespace

std::string with_decimal_comma(std::string cell) { return with_mark(std::move(cell), '.', ','); }

std::string with_decimal_point(std::string cell) { return with_mark(std::move(cell), ',', '.'); }

CsvText read_csv(std::string_view text) { return Reader(text).read(); }

std::string write_csv_row(const std::vector<std::string>& cells, Decimals decimals) {
  std::string row;
  for (const auto& cell : cells) {
    if (&cell != &cells.front()) row += decimals == Decimals::Comma ? kSemicolon : kComma;
    const std::string guard(needs_guard(cell) ? 1 : 0, kGuard);
    if (!needs_quotes(cell, decimals)) {
      row += guard + cell;
      continue;
    }
    row += kQuote + guard;
    for (const char c : cell) row += c == kQuote ? std::string(2, kQuote) : std::string(1, c);
    row += kQuote;
  }
  return row + "\r\n";
}

}  // namespace exchange
