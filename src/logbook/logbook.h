#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "logbook/lines_progress.h"
#include "logbook/waiting.h"
#include "record/content.h"
#include "record/history_line.h"
#include "record/job.h"
#include "record/logbook_copy.h"
#include "record/unreadable_line.h"
#include "record/verification.h"

namespace SQLite {
class Database;
}

namespace logbook {

class SigningKey;
class Soundness;

// One line as it stands in the file, without its content.
struct Line {
  std::string id;
  std::int64_t line = 0;
  std::string kind;
  bool struck = false;
};

// An open logbook. Reading sees what was committed when the read began. Every member may throw
// LogbookError; no error of the SQLite library leaves this room. What is read as a job, a history
// or a copy is held against the hashes of its lines (soundness.h). Whoever waits for another
// program that holds the file does it as `waiting` says, which has to outlive the logbook.
class Logbook {
 public:
  // For looking things up; the file is not changed.
  [[nodiscard]] static Logbook open_to_read(const std::string& path,
                                            Waiting& waiting = Waiting::silent());
  // For looking things up in a file that is not the one at hand: nothing is written to it, not even
  // to bring an older schema up to date, nor left beside it.
  [[nodiscard]] static Logbook open_unchanged(const std::string& path,
                                              Waiting& waiting = Waiting::silent());
  // For trying something: what is written to it is written nowhere.
  [[nodiscard]] static Logbook open_to_try(const std::string& path,
                                           Waiting& waiting = Waiting::silent());
  // For recording (see Recording).
  [[nodiscard]] static Logbook open_to_write(const std::string& path,
                                             Waiting& waiting = Waiting::silent());

  // Whether opening it for recording leaves the file as it is: it may be written to, and neither
  // its schema nor how it keeps what is written has to be changed first.
  [[nodiscard]] static bool is_ready_to_write(const std::string& path,
                                              Waiting& waiting = Waiting::silent());

  Logbook(Logbook&&) noexcept;
  Logbook(const Logbook&) = delete;
  Logbook& operator=(const Logbook&) = delete;
  ~Logbook();

  // Has `progress` told from now on how far each reading of the whole has come.
  void show_progress(LinesProgress progress) { progress_ = std::move(progress); }

  // All that counts, in one pass over each kind.
  [[nodiscard]] record::Job job() const;

  // The same for one joint alone: of the lines about joints its own and no others (nor are others
  // read), with all that is about none (job_of_none).
  [[nodiscard]] record::Job job_of(std::string_view joint) const;

  // The same without any joint: what a look at wrenches, fluids, items or hold points needs.
  [[nodiscard]] record::Job job_of_none() const;

  // Every line but the strikes, in the order of their ids; those that are struck, with the strike.
  [[nodiscard]] std::vector<record::HistoryLine> history() const;

  // The same, with the lines that cannot be read by rising number, struck or not. Everything else
  // here that meets one that counts throws LogbookError (Damaged), which names its number, the
  // value and how to go on.
  using Unreadable = std::vector<record::UnreadableLine>;
  [[nodiscard]] std::vector<record::HistoryLine> history(Unreadable& unreadable) const;

  // LogbookError (Damaged) as these others throw it, where there is any line that cannot be read.
  void refuse_if_any(const Unreadable& unreadable) const;

  // Whether striking these lines makes the logbook usable again. Looks at all of it.
  [[nodiscard]] record::Strikes what_strikes_do(const Unreadable& unreadable) const;

  // The lines of history(), with its refusals, handed over in parts by rising id, of which each
  // holds some thousand lines. What is handed over fits its hash; what is made of it counts once
  // this has returned, since a line that cannot be read is met on the way.
  void history_in_parts(
      const std::function<void(std::vector<record::HistoryLine> part)>& take) const;

  // The lines about one joint, and those that are about none, as history has them; no others are
  // read.
  [[nodiscard]] std::vector<record::HistoryLine> history_of(std::string_view joint) const;

  // The wrench of the test or pull that was done last, as it is named there; empty where none was.
  [[nodiscard]] std::string wrench_used_last() const;

  // What of the lines does not fit their hashes, as everything else here would refuse it; nothing
  // where all fits. For who shows the lines all the same.
  [[nodiscard]] std::optional<std::string> misfit(std::vector<record::HistoryLine>& lines) const;

  // Every line as the file holds it, to be written into another logbook (see restore.h), which
  // would take it: one that cannot be read and is struck too, value by value, but LogbookError
  // (Damaged) where it holds what no copy can (copyable_values.h). Nothing is handed over before
  // all of it was checked, and no more than some thousand lines are held.
  void copy(record::CopyTaker& taker) const;

  // LogbookError (Damaged) for the first photograph that is not what its line says, struck or not,
  // or that no line shows: no import would take it along with a copy. Each is read once.
  void check_photographs() const;

  // All that counts as job() has it, without the first line of the logbook, handed over in parts by
  // rising id, of which each holds some thousand lines; of a logbook into which copies were merged
  // in one part. Nothing is handed over before all of it was checked.
  void job_in_parts(const std::function<void(record::Job part)>& take) const;

  // The current entry of one thing, for checks while recording.
  [[nodiscard]] std::optional<record::Entry<record::Joint>> joint(std::string_view code) const;
  [[nodiscard]] std::optional<record::Entry<record::Wrench>> wrench(std::string_view name) const;

  // The photographs that count, of whatever, and that of a line, struck or not.
  [[nodiscard]] std::vector<record::Entry<record::Photograph>> photographs() const;
  [[nodiscard]] std::optional<record::Entry<record::Photograph>> photograph_in(
      const std::string& id) const;

  // The first line that counts and shows the photograph with this SHA-256; no other is read.
  [[nodiscard]] std::optional<record::Entry<record::Photograph>> photograph_kept_as(
      const std::string& sha256) const;

  // Whether lines were written while copies that have been merged were apart.
  [[nodiscard]] bool is_merged() const;

  // The bytes of a photograph. LogbookError (Damaged) where they are not what its line says.
  [[nodiscard]] std::string bytes_of(const record::Photograph& photograph) const;

  // The same by their SHA-256 alone, for a copy.
  [[nodiscard]] std::string photograph_with(const std::string& sha256) const;

  // A line by its number, struck or not.
  [[nodiscard]] std::optional<Line> line(std::int64_t number) const;

  // The line whose id ends so (entry_id.h), struck or not.
  [[nodiscard]] std::optional<Line> line_given(const std::string& tail) const;

  // The number of the line written last.
  [[nodiscard]] std::int64_t last_line() const;

  // The id of the line of this number, and whether there is one of an id.
  [[nodiscard]] std::string id_of(std::int64_t number) const;
  [[nodiscard]] bool has_line(const std::string& id) const;

  // The hashes of the ends of the log, that of this line last; see hash_chain.h.
  [[nodiscard]] std::vector<std::string> end_hashes() const;

  // The id of the first line, by which copies of one logbook know each other; empty in a file that
  // lost it.
  [[nodiscard]] std::string first_id() const;

  // The lines with a higher number than the one of this id, and when the first of them was entered;
  // all lines where there is none of it.
  struct Tail {
    std::int64_t lines = 0;
    std::optional<record::Moment> first_entered;
  };
  [[nodiscard]] Tail lines_after(const std::string& id) const;

  // When the last line was entered, by the clock of the machine that wrote it.
  [[nodiscard]] std::optional<record::Moment> last_entered() const;

  // The joints that cover this one, in the order of their entry.
  [[nodiscard]] std::vector<std::string> covers_of(std::string_view joint) const;

  // Every joint code and wrench name, for suggestions.
  [[nodiscard]] std::vector<std::string> joint_codes() const;
  [[nodiscard]] std::vector<std::string> wrench_names() const;

  [[nodiscard]] const std::string& path() const { return path_; }

 private:
  friend class Merging;
  friend class Recording;
  friend std::vector<record::ChainCheck::Hashed> sign_to_the_end(
      Logbook& logbook, const std::string& by, record::Moment now,
      const std::function<SigningKey()>& key_of);
  Logbook(std::string path, std::unique_ptr<SQLite::Database> database);
  [[nodiscard]] record::Job job_without_joints(Unreadable& unreadable) const;
  void begin_reading(int times) const;
  [[nodiscard]] const std::function<void()>* line_read() const;
  void refuse_too_many_positions() const;
  void check_covers() const;
  void refuse_what_no_copy_holds() const;
  template <class Kind>
  [[nodiscard]] std::optional<record::Entry<Kind>> latest(std::string_view name) const;

  std::string path_;
  std::unique_ptr<SQLite::Database> database_;
  std::unique_ptr<Soundness> soundness_;
  LinesProgress progress_;
};

}  // namespace logbook
