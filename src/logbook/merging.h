#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "logbook/logbook.h"
#include "logbook/waiting.h"
#include "record/entry.h"
#include "record/unreadable_line.h"

namespace SQLite {
class Transaction;
}

namespace logbook {

class KeptCopy;

// What a merge takes over and what it moves.
struct Merged {
  std::int64_t lines_before = 0;        // of the logbook
  std::int64_t lines_of_copy = 0;       // of the copy that is put into it
  std::vector<std::int64_t> new_lines;  // the numbers that the lines taken over have, rising
  std::int64_t moved = 0;               // so many lines of the logbook have other numbers now
  std::int64_t first_moved = 0;         // the number that the first of them had; 0 where none
  std::size_t new_signatures = 0;

  // A strike that was taken over, and the number that the line has which it strikes.
  struct Strike {
    record::Stamp stamp;
    std::int64_t struck = 0;
    std::string reason;
  };
  std::vector<Strike> strikes = {};
  // Of the lines taken over those that cannot be read, all of them struck, by rising number.
  std::vector<record::UnreadableLine> unreadable = {};
  // Where there are such lines, what keeps the logbook from being copied as text
  // (copyable_values.h).
  std::optional<std::string> no_copy_holds = std::nullopt;

  // Whether the logbook holds lines that the copy does not, those taken over left out.
  [[nodiscard]] bool is_ahead() const {
    return lines_before + static_cast<std::int64_t>(new_lines.size()) > lines_of_copy;
  }
};

// Told what is done and of how many lines, then after each of them.
struct MergeProgress {
  std::function<void(std::string_view what, std::size_t lines)> begin;
  std::function<void()> line;
  // Called when all is looked at and nothing is left but to keep it; may be none.
  std::function<void()> keeping = {};
};

// A copy of a logbook that somebody went on with, put into it: the lines of both, in the order of
// their ids, each as it was written and with the hash that it has (hash_chain.h). Which of the two
// is put into the other, in which order copies are, and how often, is the same; but for the numbers
// of the lines, which are their places in that order, no line changes. Both are verified first, and
// the copy is only read.
//
// The logbook is held against other writers from here on, and shows the lines of both to who reads
// it through this object's logbook; without commit() all is undone. One transaction, so that
// whatever stops the program leaves it as it was or merged. Since no command undoes it then, the
// file as it was is kept beside itself (kept_copy.h).
class Merging {
 public:
  // InputError where the copy is the logbook itself or one of another; Refusal where the logbook
  // does not fit its hashes, or a line says otherwise in the copy under the same id; LogbookError
  // where the copy does not fit, is of a later schema, no logbook or not to be read.
  Merging(Logbook& logbook, const std::string& copy, const MergeProgress& progress,
          Waiting& waiting = Waiting::silent());
  ~Merging();
  Merging(const Merging&) = delete;
  Merging& operator=(const Merging&) = delete;

  [[nodiscard]] const Merged& merged() const { return merged_; }

  // Tells the file in which the logbook as it was is kept; empty where nothing came, or where it is
  // in memory alone.
  std::string commit();

 private:
  Logbook& logbook_;
  std::unique_ptr<KeptCopy> before_;
  std::unique_ptr<SQLite::Transaction> transaction_;
  Merged merged_;
};

}  // namespace logbook
