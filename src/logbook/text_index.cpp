#include "logbook/text_index.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <algorithm>

#include "logbook/guarded.h"

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
