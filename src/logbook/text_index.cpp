#include "logbook/text_index.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <algorithm>
#include <iterator>
#include <utility>

#include "logbook/guarded.h"
#include "quantity/ascii.h"

namespace logbook {
namespace {

constexpr const char* kPlace = "the search index in memory";

// No text of a logbook holds these, so they cannot be taken for stars that somebody typed.
constexpr char kOpens = '\x01';
constexpr char kCloses = '\x02';

std::string starred(std::string passage) {
  std::ranges::replace(passage, kOpens, '*');
  std::ranges::replace(passage, kCloses, '*');
  return passage;
}

bool is_ascii(char c) { return static_cast<unsigned char>(c) < 0x80; }
bool is_of_token(char c) { return quantity::is_letter(c) || quantity::is_digit(c); }

// A sign beyond ASCII may be a letter with an accent. These, of which the lines are full, only part
// words.
constexpr std::string_view kPartingSigns[] = {"·", "±", "°"};

bool has_accents(std::string_view text) {
  while (true) {
    const auto* sign = std::ranges::find_if_not(text, is_ascii);
    if (sign == text.end()) return false;
    text.remove_prefix(static_cast<std::size_t>(sign - text.begin()));
    const auto* parting = std::ranges::find_if(
        kPartingSigns, [&](std::string_view each) { return text.starts_with(each); });
    if (parting == std::end(kPartingSigns)) return true;
    text.remove_prefix(parting->size());
  }
}

std::string in_lower_case(std::string_view text) {
  std::string lower(text);
  std::ranges::transform(lower, lower.begin(), quantity::lower);
  return lower;
}

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

}  // namespace

TextIndex::TextIndex() {
  guarded(kPlace, [&] {
    database_ = std::make_unique<SQLite::Database>(":memory:",
                                                   SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    database_->exec(
        "CREATE VIRTUAL TABLE text USING fts5 (says, beside, who, struck, "
        "tokenize = 'unicode61 remove_diacritics 2')");
    // One transaction for all: FTS5 would write its segments after every single row.
    database_->exec("BEGIN");
    insert_ = std::make_unique<SQLite::Statement>(*database_, R"(
        INSERT INTO text (rowid, says, beside, who, struck)
        VALUES (:number, :says, :beside, :who, :struck))");
  });
}

TextIndex::~TextIndex() = default;

void TextIndex::add(std::int64_t number, const Text& text) {
  guarded(kPlace, [&] {
    insert_->reset();
    insert_->bind(":number", number);
    insert_->bind(":says", std::string(text.says));
    insert_->bind(":beside", std::string(text.beside));
    insert_->bind(":who", std::string(text.who));
    insert_->bind(":struck", std::string(text.struck));
    insert_->exec();
  });
}

TextIndex::Sieve::Sieve(std::string_view words) {
  if (!std::ranges::all_of(words, is_ascii)) return;
  std::string part;
  for (const char c : words) {
    if (is_of_token(c)) {
      part += quantity::lower(c);
    } else if (!part.empty()) {
      parts_.push_back(std::exchange(part, {}));
    }
  }
  if (!part.empty()) parts_.push_back(std::move(part));
}

bool TextIndex::Sieve::may_hold_all(const Text& text) const {
  if (parts_.empty()) return true;
  const std::string_view columns[] = {text.says, text.beside, text.who, text.struck};
  std::string all;
  for (const auto& column : columns) {
    if (has_accents(column)) return true;
    all += in_lower_case(column);
    all += ' ';
  }
  return std::ranges::all_of(
      parts_, [&](const std::string& part) { return all.find(part) != std::string::npos; });
}

std::vector<TextIndex::Hit> TextIndex::find(std::string_view words) {
  const auto query = quoted_query(words);
  if (query.empty()) return {};
  return guarded(kPlace, [&] {
    SQLite::Statement row(*database_, R"(
        SELECT rowid, snippet(text, 0, char(1), char(2), '…', 32),
               snippet(text, -1, char(1), char(2), '…', 32)
        FROM text WHERE text MATCH :query ORDER BY rowid)");
    row.bind(":query", query);
    std::vector<Hit> hits;
    while (row.executeStep()) {
      const auto says = row.getColumn(1).getString();
      const bool in_says = says.find(kOpens) != std::string::npos;
      hits.push_back({row.getColumn(0).getInt64(),
                      starred(in_says ? says : row.getColumn(2).getString()), in_says});
    }
    return hits;
  });
}

std::string quoted_query(std::string_view words) {
  std::string query;
  std::size_t at = 0;
  while (true) {
    while (at < words.size() && is_blank(words[at])) ++at;
    if (at == words.size()) break;
    query += query.empty() ? "\"" : " \"";
    for (; at < words.size() && !is_blank(words[at]); ++at) {
      if (words[at] == '"') query += '"';
      query += words[at];
    }
    query += '"';
  }
  return query.empty() ? query : query + " *";
}

}  // namespace logbook
