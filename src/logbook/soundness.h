#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_set>
#include <vector>

#include "record/entry.h"
#include "record/job.h"
#include "record/unreadable_line.h"

namespace SQLite {
class Database;
}

namespace logbook {

class CanonicalLines;
class SecondIndexes;

// LogbookError (Damaged) where pages, rows and indexes of the file contradict each other, told of
// the first that does. Nothing endless can be hidden in a file that passes: no page is reached
// twice within a table. The bytes of photographs are not looked at: they are most of the file where
// there are any, and are held against their SHA-256 when they are shown (photograph_bytes.h).
void check_structure(SQLite::Database& database, const std::string& path);

// Whether a file, without its photographs, is small enough that all of it is held against its
// hashes whenever it is opened, whatever is then asked: about ten thousand lines, a fifth of a
// second.
[[nodiscard]] bool is_checked_whole(SQLite::Database& database);

// What an open logbook says held against the hashes of its lines, before anything is answered out
// of it: a byte that changed on the disk is named and never answered with. Each line is looked at
// once. A line that does not fit and is struck is passed over, since it counts for nothing.
class Soundness {
 public:
  Soundness(SQLite::Database& database, std::string path);
  ~Soundness();
  Soundness(const Soundness&) = delete;
  Soundness& operator=(const Soundness&) = delete;

  // Called for each line that a look at all of them recomputes.
  using LineChecked = std::function<void()>;

  // Every line, signature and page. LogbookError (Damaged), naming the first line that does not
  // fit and how to go on.
  void check_all(const LineChecked& line_checked = {});

  // Whether every line was looked at already, so that check_all does nothing.
  [[nodiscard]] bool is_all_checked() const { return all_fits_; }

  // The lines of this job, and what check_places looks at, where the file is not small
  // (is_checked_whole), else every line.
  void check(const record::Job& job);

  // The same of this line.
  void check(const record::Stamp& line);

  // Whether all lines about this joint are found by its code, and all strikes as such, where the
  // file is not small; before they are looked for.
  void check_lookups(std::string_view joint);

  // The same of the lines in this table, by their name.
  void check_lookups_in(std::string_view table, std::string_view name);

  // Every line where the file is small, else none: one line more is not worth reading them all.
  void check_to_write();

  // The same where all that was written is strikes of these lines, which counts already: a line
  // that does not fit is taken out of what counts though others do not either. Never where lines
  // were taken out, put in or moved: the strike would get the number of one of them.
  void check_to_strike(const std::vector<std::string>& struck_now);

  // Whether the logbook is usable again once these lines, and all others that do not fit by
  // themselves, are struck. Looks at all of it.
  [[nodiscard]] record::Strikes what_strikes_do(
      const std::vector<record::UnreadableLine>& unreadable);

  // Whether the line, which is struck, is what was written; after check_all or check.
  [[nodiscard]] bool is_as_written(const record::Stamp& struck);

  // Refuses lines that no program of ours writes where they stand (out_of_place.h), and strikes of
  // nothing; in a file that is not small also where not all strikes are found. Looked at once.
  void check_places();

  // Refuses an end of merged copies that was none where the file is small. The next line names all
  // ends and takes the list of them away.
  void check_ends();

  // What check_all would throw; nothing where all fits.
  [[nodiscard]] std::optional<std::string> misfit(const LineChecked& line_checked = {});

  // As check_all, but a line that is struck has to fit too.
  void check_for_copy(const LineChecked& line_checked = {});

 private:
  void check_one(const record::Stamp& line);
  [[nodiscard]] record::Strikes what_strikes_do();
  [[nodiscard]] bool is_small();
  [[nodiscard]] const SecondIndexes& second_indexes();
  // Of a small file it was looked at when it was opened.
  void check_large_structure();

  SQLite::Database& database_;
  std::string path_;
  std::unique_ptr<CanonicalLines> lines_;  // none until the first is checked by itself
  std::unique_ptr<const SecondIndexes> second_indexes_;  // none until the first is looked for
  std::optional<bool> is_small_;                         // as it was when that was asked first
  bool all_fits_ = false;
  bool places_fit_ = false;
  std::unordered_set<std::string> altered_struck_;  // ids, where all_fits_
  bool struck_fit_too_ = false;
};

}  // namespace logbook
