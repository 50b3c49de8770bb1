#include "exchange/csv.h"

#include <fmt/format.h>
#include <utf8proc.h>

#include <algorithm>
#include <optional>
#include <utility>

#include "failure/failure.h"
#include "quantity/ascii.h"

namespace exchange {
namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
constexpr char kQuote = '"';
constexpr char kComma = ',';
constexpr char kSemicolon = ';';

// Looks for the separator of the first line (see CsvReader) in a text that comes in pieces.
class SeparatorSearch {
 public:
  // Nothing where this piece does not tell yet.
  std::optional<char> found_in(std::string_view piece) {
    for (const char c : piece) {
      if (c == kQuote) in_quotes_ = !in_quotes_;
      if (in_quotes_) continue;
      if (c == kComma) return kComma;
      if (c == '\n') return at_end();
      has_semicolon_ = has_semicolon_ || c == kSemicolon;
    }
    return std::nullopt;
  }

  [[nodiscard]] char at_end() const { return has_semicolon_ ? kSemicolon : kComma; }

 private:
  bool in_quotes_ = false;
  bool has_semicolon_ = false;
};

// Why a character may not stand where no quotes are open; empty where it may.
std::string_view why_not(char c, bool behind_quotes) {
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

// What a cell may not hold; empty where it is clean. Line ends are the text's own.
std::string_view unclean(std::string_view cell) {
  if (std::ranges::all_of(cell, quantity::is_plain)) return {};
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

CsvReader::CsvReader(Pieces pieces) : pieces_(std::move(pieces)) {}

// Whether so many bytes are there to be read, as far as the text has as many.
bool CsvReader::has(std::size_t bytes) {
  while (rest_.size() < bytes && !has_ended_) {
    const auto piece = pieces_();
    has_ended_ = piece.empty();
    text_.erase(0, text_.size() - rest_.size());
    text_ += piece;
    rest_ = text_;
  }
  return rest_.size() >= bytes;
}

void CsvReader::begin() {
  has_begun_ = true;
  if (has(kByteOrderMark.size()) && rest_.starts_with(kByteOrderMark)) {
    rest_.remove_prefix(kByteOrderMark.size());
  }
  SeparatorSearch search;
  auto found = search.found_in(rest_);
  while (!found) {
    const auto searched = rest_.size();
    if (searched > kMostBytesOfRow) {  // refused where it is read
      found = search.at_end();
      break;
    }
    found = has(searched + 1) ? search.found_in(rest_.substr(searched)) : search.at_end();
  }
  separator_ = *found;
}

const CsvRow* CsvReader::next() {
  if (!has_begun_) begin();
  faults_.clear();
  while (take_line_end()) continue;
  if (!has(1)) return nullptr;
  read_row();
  return &row_;
}

void CsvReader::read_row() {
  row_.clear();
  row_bytes_ = 0;
  do {
    if (row_.size() == kMostCellsOfRow) refuse_row(fmt::format("{} cells", kMostCellsOfRow));
    row_.push_back({"", line_});
    read_cell();
    if (is_guarded(row_.back().text)) row_.back().text.erase(0, 1);
    if (const auto why = unclean(row_.back().text); !why.empty()) fault(why);
  } while (take(separator_));
  (void)take_line_end();
}

void CsvReader::read_cell() {
  const bool was_quoted = take(kQuote);
  if (was_quoted) read_quoted();
  bool is_told = false;
  while (has(1) && rest_.front() != separator_ && !at_line_end()) {
    if (const auto why = why_not(rest_.front(), was_quoted); !is_told && !why.empty()) {
      fault(why);
      is_told = true;
    }
    // Up to what may end the cell or is not to stand in it.
    const auto run = rest_.substr(1);
    const char ends[] = {separator_, kQuote, '\r', '\n'};
    const auto length =
        1 + std::min(run.size(), run.find_first_of(std::string_view(ends, sizeof ends)));
    add(rest_.substr(0, length));
    rest_.remove_prefix(length);
  }
}

// From behind the opening quote to behind the closing one.
void CsvReader::read_quoted() {
  const auto opened_on = line_;
  while (has(1)) {
    if (take(kQuote) && !(has(1) && rest_.front() == kQuote)) return;
    if (rest_.front() == '\n') ++line_;
    add(rest_.substr(0, 1));
    rest_.remove_prefix(1);
  }
  fault(fmt::format("the quote that opens on line {} is never closed", opened_on));
}

void CsvReader::add(std::string_view to_cell) {
  row_bytes_ += to_cell.size();
  if (row_bytes_ > kMostBytesOfRow) refuse_row(fmt::format("{} MiB", kMostBytesOfRow >> 20U));
  row_.back().text += to_cell;
}

void CsvReader::refuse_row(const std::string& too_much) const {
  throw failure::InputError(fmt::format(
      "line {}: the row that begins here holds more than {}, as no row of a table does; "
      "look for a quote that is never closed, and for line ends that are neither LF nor "
      "CR LF",
      row_.front().line, too_much));
}

bool CsvReader::take(char c) {
  if (!has(1) || rest_.front() != c) return false;
  rest_.remove_prefix(1);
  return true;
}

bool CsvReader::at_line_end() {
  return has(1) && (rest_.front() == '\n' || (rest_.front() == '\r' && has(2) && rest_[1] == '\n'));
}

bool CsvReader::take_line_end() {
  if (!at_line_end()) return false;
  rest_.remove_prefix(rest_.front() == '\r' ? 2 : 1);
  ++line_;
  return true;
}

void CsvReader::fault(std::string_view why) {
  faults_.push_back({row_.front().line, row_.size(), std::string(why)});
}

std::string with_decimal_comma(std::string cell) { return with_mark(std::move(cell), '.', ','); }

std::string with_decimal_point(std::string cell) { return with_mark(std::move(cell), ',', '.'); }

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
