#include "logbook/logbook.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include <algorithm>
#include <set>

#include "logbook/containment.h"
#include "logbook/copied_rows.h"
#include "logbook/copies_apart.h"
#include "logbook/copyable_values.h"
#include "logbook/every_kind.h"
#include "logbook/guarded.h"
#include "logbook/hash_chain.h"
#include "logbook/history_lines.h"
#include "logbook/joint_lines.h"
#include "logbook/logbook_file.h"
#include "logbook/out_of_place.h"
#include "logbook/parts_of_lines.h"
#include "logbook/photograph_bytes.h"
#include "logbook/position_total.h"
#include "logbook/soundness.h"
#include "logbook/unreadable_lines.h"
#include "quantity/number_text.h"
#include "record/kept_by_use.h"
#include "record/picture.h"

namespace logbook {
namespace {

// One moment of the file for several statements: inside a recording its transaction is the one to
// read in, else one of its own.
class Glance {
 public:
  explicit Glance(SQLite::Database& database) {
    if (sqlite3_get_autocommit(database.getHandle()) != 0) moment_.emplace(database);
  }

 private:
  std::optional<SQLite::Transaction> moment_;
};

std::vector<std::string> texts(SQLite::Database& database, const char* sql) {
  SQLite::Statement row(database, sql);
  std::vector<std::string> found;
  while (row.executeStep()) found.push_back(row.getColumn(0).getString());
  return found;
}

// In the order of entry; of a joint that was entered again, where that was.
std::vector<std::string> current_joint_codes(SQLite::Database& database) {
  return texts(database, "SELECT code FROM current_joint ORDER BY entry_id");
}

// How many lines a job was read from, the first one included.
std::int64_t lines_in(const record::Job& job) {
  std::int64_t lines = 1;
  record::for_each_entry(job, [&](const auto&) { ++lines; });
  return lines;
}

std::int64_t current_lines(SQLite::Database& database) {
  return database.execAndGet("SELECT count(*) FROM current_entry").getInt64();
}

std::int64_t entries_in(SQLite::Database& database) {
  return database.execAndGet("SELECT count(*) FROM entry").getInt64();
}

std::size_t readable_strikes(SQLite::Database& database, const RowFilter& part) {
  return count_readable(database, part, {record::Kinds::index_of<record::Strike>()});
}

// Nothing where the cell holds none: what cannot be read is told where that line is.
std::optional<record::Moment> moment_if_any(const SQLite::Column& cell) {
  if (cell.isNull()) return std::nullopt;
  try {
    return record::read_utc(cell.getString());
  } catch (const failure::InputError&) {
    return std::nullopt;
  }
}

// Where what is looked up by its name stands.
template <class Kind>
constexpr const char* kNamedIn = nullptr;
template <>
constexpr const char* kNamedIn<record::Joint> = "joint";
template <>
constexpr const char* kNamedIn<record::Wrench> = "wrench";

std::optional<record::Entry<record::Photograph>> photograph_of_line(
    SQLite::Database& database, const std::string& id, Logbook::Unreadable& unreadable) {
  const auto behind = id + '~';  // ids are of one length, so that no other lies between
  const RowFilter alone{
      .unreadable = unreadable, .from_id = id, .until_id = behind, .struck_too = true};
  auto entries = read_rows(database, alone, Rows<record::Photograph>{});
  if (entries.empty()) return std::nullopt;
  return std::move(entries.front());
}

}  // namespace

Logbook::Logbook(std::string path, std::unique_ptr<SQLite::Database> database)
    : path_(std::move(path)),
      database_(std::move(database)),
      soundness_(std::make_unique<Soundness>(*database_, path_)) {}
Logbook::Logbook(Logbook&&) noexcept = default;
Logbook::~Logbook() = default;

Logbook Logbook::open_to_read(const std::string& path, Waiting& waiting) {
  return {path, logbook::open_to_read(path, waiting)};
}

Logbook Logbook::open_unchanged(const std::string& path, Waiting& waiting) {
  return {path, logbook::open_unchanged(path, waiting)};
}

Logbook Logbook::open_to_try(const std::string& path, Waiting& waiting) {
  return {path, logbook::open_to_try(path, waiting)};
}

Logbook Logbook::open_to_write(const std::string& path, Waiting& waiting) {
  return {path, logbook::open_to_write(path, waiting)};
}

bool Logbook::is_ready_to_write(const std::string& path, Waiting& waiting) {
  return guarded(path, [&] { return logbook::is_ready_to_write(path, waiting); });
}

// How many steps are coming where every line is read so often and, unless it was before, checked.
void Logbook::begin_reading(int times) const {
  if (!progress_.begin) return;
  const auto of_each = times + (soundness_->is_all_checked() ? 0 : 1);
  progress_.begin(static_cast<std::size_t>(entries_in(*database_) * of_each));
}

const std::function<void()>* Logbook::line_read() const {
  return progress_.step ? &progress_.step : nullptr;
}

record::Job Logbook::job() const {
  return guarded(path_, [&] {
    const Glance glance(*database_);
    begin_reading(1);
    Unreadable unreadable;
    auto job = job_without_joints(unreadable);
    read_lines_of_joints(*database_, {.unreadable = unreadable, .line_read = line_read()}, job);
    refuse_if_any(unreadable);
    refuse_too_many_positions();
    // A line that lost its rows is in no table; its history tells which.
    if (lines_in(job) != current_lines(*database_)) (void)history();
    soundness_->check_all(progress_.step);
    record::keep_what_is_used(job);
    return job;
  });
}

void Logbook::refuse_too_many_positions() const {
  try {
    check_position_total(*database_);
  } catch (const failure::InputError& error) {
    throw LogbookError(LogbookError::Kind::Damaged, fmt::format("{}: {}", path_, error.what()));
  }
}

record::Job Logbook::job_of(std::string_view joint) const {
  return guarded(path_, [&] {
    const Glance glance(*database_);
    Unreadable unreadable;
    soundness_->check_lookups(joint);
    auto job = job_without_joints(unreadable);
    read_lines_of_joints(*database_, {unreadable, joint}, job);
    refuse_if_any(unreadable);
    record::keep_what_is_used(job);
    soundness_->check(job);
    return job;
  });
}

record::Job Logbook::job_of_none() const {
  return guarded(path_, [&] {
    const Glance glance(*database_);
    soundness_->check_places();
    Unreadable unreadable;
    auto job = job_without_joints(unreadable);
    refuse_if_any(unreadable);
    record::keep_what_is_used(job);
    soundness_->check(job);
    return job;
  });
}

record::Job Logbook::job_without_joints(Unreadable& unreadable) const {
  record::Job job;
  auto start = read_start(*database_, {.unreadable = unreadable, .struck_too = true});
  if (start.empty() && unreadable.empty()) {
    throw LogbookError(LogbookError::Kind::Damaged,
                       path_ + " has lost its first line; go back to a copy");
  }
  if (!start.empty()) job.start = std::move(start.front().content);
  read_lines_of_none(*database_, {unreadable}, job);
  job.apart = read_apart(*database_);
  return job;
}

void Logbook::refuse_if_any(const Unreadable& unreadable) const {
  guarded(path_, [&] { logbook::refuse_if_any(path_, unreadable, *soundness_); });
}

record::Strikes Logbook::what_strikes_do(const Unreadable& unreadable) const {
  return guarded(path_, [&] { return soundness_->what_strikes_do(unreadable); });
}

void Logbook::refuse_what_no_copy_holds() const {
  const auto found = value_no_copy_holds(*database_);
  if (!found) return;
  throw LogbookError(
      LogbookError::Kind::Damaged,
      fmt::format("{}: {}; {}no copy in text can hold that; \"boltwitness backup\" copies the file "
                  "as it is{}",
                  path_, found->says, found->is_struck ? "it is struck, but " : "",
                  found->is_struck
                      ? ", and a table leaves that line out: boltwitness export findings"
                      : ""));
}

std::vector<record::HistoryLine> Logbook::history() const {
  Unreadable unreadable;
  auto lines = history(unreadable);
  std::erase_if(unreadable, [](const auto& line) { return line.struck; });
  refuse_if_any(unreadable);
  guarded(path_, [&] {
    soundness_->check_all(progress_.step);
    mark_altered(*soundness_, lines);
  });
  return lines;
}

std::optional<std::string> Logbook::misfit(std::vector<record::HistoryLine>& lines) const {
  return guarded(path_, [&] {
    auto found = soundness_->misfit();
    mark_altered(*soundness_, lines);
    return found;
  });
}

std::vector<record::HistoryLine> Logbook::history(Unreadable& unreadable) const {
  return guarded(path_, [&] {
    const Glance glance(*database_);
    begin_reading(1);
    const RowFilter all{.unreadable = unreadable, .struck_too = true, .line_read = line_read()};
    auto read = read_or_tell(*database_, all);
    for (auto& strike : read.strikes) {
      if (auto* struck = line_with(read.lines, strike.content.struck_id)) {
        add_strike(*struck, std::move(strike));
      }
    }
    for (auto& line : lines_out_of_place(*database_)) {
      std::erase_if(read.lines, [&](const auto& each) { return each.stamp.id == line.id; });
      unreadable.push_back(std::move(line));
    }
    record::each_once(unreadable);
    return std::move(read.lines);
  });
}

void Logbook::history_in_parts(
    const std::function<void(std::vector<record::HistoryLine>)>& take) const {
  guarded(path_, [&] {
    const Glance glance(*database_);
    begin_reading(1);
    // Of what is wrong the first is told, for which all is looked at together.
    if (soundness_->misfit(progress_.step)) (void)history();
    std::size_t read = 0;
    bool is_sound = true;
    for_each_part(*database_, true, line_read(), [&](const RowFilter& part) {
      auto lines = read_every_line(*database_, part);
      read += lines.size() + readable_strikes(*database_, part);
      add_strikes_of(*database_, part, lines);
      mark_altered(*soundness_, lines);
      read += take_out_struck(*database_, part.unreadable);
      is_sound = is_sound && part.unreadable.empty();
      take(std::move(lines));
    });
    if (!is_sound || static_cast<std::int64_t>(read) != entries_in(*database_)) (void)history();
  });
}

std::vector<record::HistoryLine> Logbook::history_of(std::string_view joint) const {
  return guarded(path_, [&] {
    const Glance glance(*database_);
    return lines_of_joint(*database_, *soundness_, path_, joint);
  });
}

std::string Logbook::wrench_used_last() const {
  return guarded(path_, [&] {
    const Glance glance(*database_);
    return logbook::wrench_used_last(*database_, *soundness_);
  });
}

void Logbook::copy(record::CopyTaker& taker) const {
  guarded(path_, [&] {
    const SQLite::Transaction moment(*database_);
    begin_reading(2);
    std::size_t read = 0;
    bool is_sound = true;
    for_each_part(*database_, true, line_read(), [&](const RowFilter& part) {
      read += read_every_line(*database_, part).size() + readable_strikes(*database_, part);
      is_sound = is_sound && part.unreadable.empty();
    });
    const bool are_all_read = is_sound && static_cast<std::int64_t>(read) == entries_in(*database_);
    if (!are_all_read) refuse_if_any(unreadable_lines(*database_));
    soundness_->check_for_copy(progress_.step);
    if (!are_all_read) refuse_what_no_copy_holds();
    read_copy(*database_, taker, progress_.step);
  });
}

void Logbook::check_photographs() const {
  using Fault = record::PhotographMisfit::Fault;
  const auto misfits = guarded(path_, [&] { return logbook::check_photographs(*database_); });
  if (misfits.empty()) return;
  const auto& first = misfits.front();
  const auto which = first.fault == Fault::OfNoLine
                         ? std::string("a photograph that no line shows")
                         : fmt::format("the photograph of line {}", first.line);
  const auto* what = first.fault == Fault::OfNoLine  ? "was put in"
                     : first.fault == Fault::Missing ? "is not there any more"
                     : first.fault == Fault::Changed ? "is not what was kept"
                                                     : "is not such as the line says";
  throw LogbookError(
      LogbookError::Kind::Damaged,
      fmt::format(
          "{}: {} (SHA-256 {}) {}: it was changed behind the program, or the disk failed; "
          "no import would take it, so nothing was exported; \"boltwitness verify\" tells "
          "all that does not fit; go back to a copy, or export the tables alone: boltwitness "
          "export findings",
          path_, which, first.sha256, what));
}

bool Logbook::is_merged() const {
  return guarded(path_, [&] { return !read_apart(*database_).is_empty(); });
}

void Logbook::job_in_parts(const std::function<void(record::Job)>& take) const {
  guarded(path_, [&] {
    const Glance glance(*database_);
    // What counts on though it was struck (record/kept_by_use.h) is told by all lines together.
    if (is_merged()) return take(job());
    begin_reading(2);
    const auto job_of_part = [&](const RowFilter& part) {
      record::Job of_part;
      read_lines_of_none(*database_, part, of_part);
      read_lines_of_joints(*database_, part, of_part);
      return of_part;
    };
    Unreadable unreadable;
    bool is_sound = !read_start(*database_, {.unreadable = unreadable, .struck_too = true}).empty();
    std::int64_t lines = 1;
    for_each_part(*database_, false, line_read(), [&](const RowFilter& part) {
      lines += lines_in(job_of_part(part)) - 1;
      is_sound = is_sound && part.unreadable.empty();
    });
    // Of what is wrong the first is told, for which all is looked at together.
    if (!is_sound || lines != current_lines(*database_)) (void)job();
    soundness_->check_all(progress_.step);
    for_each_part(*database_, false, line_read(),
                  [&](const RowFilter& part) { take(job_of_part(part)); });
  });
}

template <class Kind>
std::optional<record::Entry<Kind>> Logbook::latest(std::string_view name) const {
  return guarded(path_, [&]() -> std::optional<record::Entry<Kind>> {
    const Glance glance(*database_);
    soundness_->check_lookups_in(kNamedIn<Kind>, name);
    Unreadable unreadable;
    auto entries = read_consistent<Kind>(*database_, {unreadable, name});
    refuse_if_any(unreadable);
    return entries.empty() ? std::nullopt : std::optional(std::move(entries.back()));
  });
}

std::optional<record::Entry<record::Joint>> Logbook::joint(std::string_view code) const {
  return guarded(path_, [&] {
    const Glance glance(*database_);
    auto found = latest<record::Joint>(code);
    if (found) return found;
    // One that was struck in a merged copy and worked on in the other counts on.
    Unreadable unreadable;
    const bool was_there =
        !read_consistent<record::Joint>(
             *database_, {.unreadable = unreadable, .name = code, .struck_too = true})
             .empty();
    if (!was_there) return found;
    auto job = job_of(code);
    if (!job.joints.empty()) found = std::move(job.joints.back());
    return found;
  });
}

std::optional<record::Entry<record::Wrench>> Logbook::wrench(std::string_view name) const {
  return latest<record::Wrench>(name);
}

std::vector<record::Entry<record::Photograph>> Logbook::photographs() const {
  return guarded(path_, [&] {
    const Glance glance(*database_);
    Unreadable unreadable;
    record::Job job;
    job.photographs = read_rows(*database_, {unreadable}, Rows<record::Photograph>{});
    refuse_if_any(unreadable);
    soundness_->check(job);
    return std::move(job.photographs);
  });
}

std::optional<record::Entry<record::Photograph>> Logbook::photograph_in(
    const std::string& id) const {
  return guarded(path_, [&] {
    Unreadable unreadable;  // says nothing where this line shows no photograph
    return photograph_of_line(*database_, id, unreadable);
  });
}

std::optional<record::Entry<record::Photograph>> Logbook::photograph_kept_as(
    const std::string& sha256) const {
  return guarded(path_, [&]() -> std::optional<record::Entry<record::Photograph>> {
    const Glance glance(*database_);
    SQLite::Statement first(*database_, R"(
        SELECT p.entry_id FROM photograph p
        WHERE p.sha256 = ? AND NOT EXISTS (SELECT 1 FROM strike WHERE struck_id = p.entry_id)
        ORDER BY p.entry_id LIMIT 1)");
    first.bind(1, sha256);
    if (!first.executeStep()) return std::nullopt;
    Unreadable unreadable;
    auto entry = photograph_of_line(*database_, first.getColumn(0).getString(), unreadable);
    refuse_if_any(unreadable);
    if (entry) soundness_->check(entry->stamp);
    return entry;
  });
}

std::string Logbook::photograph_with(const std::string& sha256) const {
  return guarded(path_, [&] {
    auto bytes = photograph_bytes(*database_, sha256);
    if (bytes) return *std::move(bytes);
    throw LogbookError(
        LogbookError::Kind::Damaged,
        fmt::format(
            "{}: the photograph with SHA-256 {} is not what was kept: it was changed behind "
            "the program, or the disk failed; \"boltwitness verify\" tells all that does not "
            "fit; go back to a copy, or strike its line",
            path_, sha256));
  });
}

std::string Logbook::bytes_of(const record::Photograph& photograph) const {
  auto bytes = photograph_with(photograph.sha256);
  try {
    const auto picture = record::read_picture(bytes);
    if (picture.format == photograph.format && picture.bytes == bytes) return bytes;
  } catch (const failure::InputError&) {
    // Told below.
  }
  throw LogbookError(
      LogbookError::Kind::Damaged,
      fmt::format("{}: what stands under SHA-256 {} is no {} as boltwitness keeps it, so it is not "
                  "shown; strike its line",
                  path_, photograph.sha256, record::word_of(photograph.format)));
}

std::optional<Line> Logbook::line(std::int64_t number) const {
  return guarded(path_, [&]() -> std::optional<Line> {
    SQLite::Statement row(*database_, R"(
        SELECT id, line, kind, EXISTS (SELECT 1 FROM strike WHERE struck_id = entry.id)
        FROM entry WHERE line = :line)");
    row.bind(":line", number);
    if (!row.executeStep()) return std::nullopt;
    return Line{row.getColumn(0).getString(), row.getColumn(1).getInt64(),
                row.getColumn(2).getString(), row.getColumn(3).getInt() != 0};
  });
}

std::optional<Line> Logbook::line_given(const std::string& tail) const {
  const auto number = guarded(path_, [&]() -> std::optional<std::int64_t> {
    SQLite::Statement row(*database_,
                          "SELECT line FROM entry WHERE substr(id, 20) = :tail ORDER BY line");
    row.bind(":tail", tail);
    if (!row.executeStep()) return std::nullopt;
    return row.getColumn(0).getInt64();
  });
  return number ? line(*number) : std::nullopt;
}

std::int64_t Logbook::last_line() const {
  return guarded(path_, [&]() -> std::int64_t {
    return database_->execAndGet("SELECT coalesce(max(line), 0) FROM entry").getInt64();
  });
}

std::string Logbook::id_of(std::int64_t number) const {
  return guarded(path_, [&]() -> std::string {
    SQLite::Statement row(*database_, "SELECT id FROM entry WHERE line = :line");
    row.bind(":line", number);
    return row.executeStep() ? row.getColumn(0).getString() : std::string();
  });
}

bool Logbook::has_line(const std::string& id) const {
  return guarded(path_, [&] {
    SQLite::Statement row(*database_, "SELECT 1 FROM entry WHERE id = :id");
    row.bind(":id", id);
    return row.executeStep();
  });
}

std::vector<std::string> Logbook::end_hashes() const {
  return guarded(path_, [&] { return logbook::end_hashes(*database_); });
}

std::string Logbook::first_id() const {
  return guarded(path_, [&] { return logbook::first_id(*database_); });
}

Logbook::Tail Logbook::lines_after(const std::string& id) const {
  return guarded(path_, [&] {
    SQLite::Statement row(*database_, R"(
        WITH copied AS (SELECT coalesce((SELECT line FROM entry WHERE id = :id), 0) AS line)
        SELECT count(*), (SELECT entered_at FROM entry WHERE line > (SELECT line FROM copied)
                          ORDER BY line LIMIT 1)
        FROM entry WHERE line > (SELECT line FROM copied))");
    row.bind(":id", id);
    row.executeStep();
    return Tail{row.getColumn(0).getInt64(), moment_if_any(row.getColumn(1))};
  });
}

std::optional<record::Moment> Logbook::last_entered() const {
  return guarded(path_, [&]() -> std::optional<record::Moment> {
    SQLite::Statement row(*database_, "SELECT entered_at FROM entry ORDER BY line DESC LIMIT 1");
    if (!row.executeStep()) return std::nullopt;
    return moment_if_any(row.getColumn(0));
  });
}

// Each joint that covers others, whichever those are: what a letter changed in one of them is about
// another joint, or none.
void Logbook::check_covers() const {
  SQLite::Statement row(*database_, R"(
      SELECT DISTINCT c.entry_id, e.line, j.code
      FROM joint_covers c LEFT JOIN entry e ON e.id = c.entry_id
                          LEFT JOIN joint j ON j.entry_id = c.entry_id
      WHERE c.entry_id NOT IN (SELECT struck_id FROM strike))");
  while (row.executeStep()) {
    record::Stamp stamp;
    stamp.id = row.getColumn(0).getString();
    stamp.line = row.getColumn(1).getInt64();
    soundness_->check(stamp);
    soundness_->check_lookups_in(kNamedIn<record::Joint>, row.getColumn(2).getString());
  }
}

std::vector<std::string> Logbook::covers_of(std::string_view joint) const {
  return guarded(path_, [&] {
    const Glance glance(*database_);
    check_covers();
    SQLite::Statement row(*database_, R"(
        SELECT j.code FROM current_joint j JOIN joint_covers c ON c.entry_id = j.entry_id
        WHERE c.covered_code = :joint ORDER BY j.entry_id)");
    row.bind(":joint", std::string(joint));
    std::vector<std::string> codes;
    while (row.executeStep()) codes.push_back(row.getColumn(0).getString());
    return codes;
  });
}

std::vector<std::string> Logbook::joint_codes() const {
  return guarded(path_, [&] { return current_joint_codes(*database_); });
}

std::vector<std::string> Logbook::wrench_names() const {
  return guarded(path_, [&] {
    return texts(*database_, R"(
        SELECT w.name FROM wrench w JOIN current_entry e ON e.id = w.entry_id
        GROUP BY w.name ORDER BY min(w.entry_id))");
  });
}

}  // namespace logbook
