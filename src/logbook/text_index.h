#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace SQLite {
class Database;
class Statement;
}  // namespace SQLite

namespace logbook {

// Full-text search (SQLite FTS5) over texts handed to it, in memory and for one search: nothing of
// it is ever in the logbook. A stored index would be a second copy of every text inside a file
// whose tables are never changed, writable by any shell and to be kept right by every later
// migration and merge; src/manual/decisions.md has what building it afresh costs.
class TextIndex {
 public:
  TextIndex();
  ~TextIndex();
  TextIndex(const TextIndex&) = delete;
  TextIndex& operator=(const TextIndex&) = delete;

  // One text under a number of its own; its parts are searched together.
  struct Text {
    std::string_view says;    // what is shown
    std::string_view beside;  // what else was typed
    std::string_view who;
    std::string_view struck;  // why it was struck
  };
  void add(std::int64_t number, const Text& text);

  // Which of the texts need not be added: those that surely hold not all of the words.
  class Sieve {
   public:
    explicit Sieve(std::string_view words);
    [[nodiscard]] bool may_hold_all(const Text& text) const;

   private:
    std::vector<std::string> parts_;  // of the words, in lower case; none where nothing can be told
  };

  struct Hit {
    std::int64_t number = 0;
    std::string passage;  // of the part that holds the words, each between stars: "*tight*"
    bool in_says = true;  // whether that part is `says`
  };

  // The texts that hold all the words, by rising number. Words are what a person types: parted by
  // blanks, in any case, with or without their accents; the last one may be the beginning of one.
  // Signs such as quotes, stars and hyphens only part words and mean nothing else.
  [[nodiscard]] std::vector<Hit> find(std::string_view words);

 private:
  std::unique_ptr<SQLite::Database> database_;
  std::unique_ptr<SQLite::Statement> insert_;
};

// The words as an FTS5 query: each quoted, the last one as a prefix. Empty where there is none.
[[nodiscard]] std::string quoted_query(std::string_view words);

}  // namespace logbook
