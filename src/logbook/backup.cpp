#include "logbook/backup.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cstdint>
#include <string_view>
#include <system_error>
#include <tuple>
#include <utility>

#include "failure/failure.h"
#include "logbook/beside_file.h"
#include "logbook/connection.h"
#include "logbook/containment.h"
#include "logbook/draft_file.h"
#include "logbook/logbook_error.h"
#include "logbook/logbook_file.h"
#include "logbook/schema.h"
#include "logbook/verification.h"
#include "record/logbook_copy.h"

namespace logbook {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view kTimeShape = "-dddd-dd-dd-dddd";

std::string time_in_name(record::Moment now) {
  auto time = '-' + record::write_local(now);  // "-2026-03-02 08:15"
  std::erase(time, ':');
  std::ranges::replace(time, ' ', '-');
  return time;
}

// What a name of this form says of when the copy was made.
struct CopyName {
  std::string time;
  std::uint64_t number = 1;  // where several came in one minute
};

// The stem, date and time and, from the second of one minute on, a number; nothing for another.
std::optional<CopyName> read_copy_name(std::string_view name, std::string_view stem) {
  if (!name.starts_with(stem) || !name.ends_with(kLogbookSuffix)) return std::nullopt;
  name.remove_prefix(stem.size());
  name.remove_suffix(kLogbookSuffix.size());
  if (name.size() < kTimeShape.size()) return std::nullopt;
  for (std::size_t i = 0; i < kTimeShape.size(); ++i) {
    const bool digit = name[i] >= '0' && name[i] <= '9';
    if (kTimeShape[i] == 'd' ? !digit : name[i] != kTimeShape[i]) return std::nullopt;
  }
  CopyName read{std::string(name.substr(0, kTimeShape.size()))};
  name.remove_prefix(kTimeShape.size());
  if (name.empty()) return read;
  if (name.front() != '-') return std::nullopt;
  name.remove_prefix(1);
  const auto [end, problem] = std::from_chars(name.data(), name.data() + name.size(), read.number);
  if (problem != std::errc() || end != name.data() + name.size()) return std::nullopt;
  return read;
}

std::string write_copy_name(const CopyName& name, const std::string& stem) {
  return name.number == 1 ? fmt::format("{}{}{}", stem, name.time, kLogbookSuffix)
                          : fmt::format("{}{}-{}{}", stem, name.time, name.number, kLogbookSuffix);
}

struct Copy {
  CopyName name;
  fs::path file;

  // The older come first.
  [[nodiscard]] auto order() const { return std::tie(name.time, name.number, file); }
};

// The copies of this name, in their order.
std::vector<Copy> copies_in(const fs::path& folder, const std::string& stem) {
  std::error_code problem;
  std::vector<Copy> copies;
  for (fs::directory_iterator at(folder, problem), end; !problem && at != end;
       at.increment(problem)) {
    std::error_code ignored;
    auto name = read_copy_name(at->path().filename().string(), stem);
    if (name && at->is_regular_file(ignored)) copies.push_back({std::move(*name), at->path()});
  }
  std::ranges::sort(copies, [](const Copy& a, const Copy& b) { return a.order() < b.order(); });
  return copies;
}

// The name after those that are there: one that is free again below them would pass for older.
CopyName next_name(const fs::path& folder, const std::string& stem, record::Moment now) {
  CopyName next{time_in_name(now)};
  for (const auto& [name, file] : copies_in(folder, stem)) {
    if (name.time == next.time) next.number = name.number + 1;
  }
  return next;
}

struct JudgedCopy {
  std::int64_t lines = 0;
  Copy copy;
  Containment what = Containment::Other;
};

// What a file is to the logbook: another one's, one that it contains, or one that it grew apart
// from.
JudgedCopy judged(Copy copy, SQLite::Database& logbook) {
  JudgedCopy found{0, std::move(copy)};
  try {
    const auto open = open_to_verify(found.copy.file.string(), Waiting::not_at_all());
    found.what = containment_of(*open.database, logbook);
    found.lines = open.database->execAndGet("SELECT max(line) FROM entry").getInt64();
  } catch (const LogbookError&) {
    found.what = Containment::Other;
  } catch (const SQLite::Exception&) {
    found.what = Containment::Other;
  }
  return found;
}

// Whoever else removes older copies meanwhile sees them in the same order, and nobody removes one
// that has not so many newer ones: so many stay, however many programs are at it.
void remove_older(Backup& backup, SQLite::Database& logbook, const std::string& stem,
                  std::size_t keep) {
  std::vector<JudgedCopy> contained;
  for (auto& copy : copies_in(backup.file.parent_path(), stem)) {
    auto found = judged(std::move(copy), logbook);
    if (found.what == Containment::Different) backup.different.push_back(found.copy.file);
    if (found.what == Containment::Contained) contained.push_back(std::move(found));
  }
  // The oldest first: it has fewer lines.
  std::ranges::sort(contained, [](const JudgedCopy& a, const JudgedCopy& b) {
    return std::pair(a.lines, a.copy.order()) < std::pair(b.lines, b.copy.order());
  });
  for (std::size_t i = 0; i + keep < contained.size(); ++i) {
    const auto& file = contained[i].copy.file;
    std::error_code problem;
    if (file != backup.file && fs::remove(file, problem)) backup.removed.push_back(file);
  }
}

// One file, which stays one when it is looked at.
void copy_to(const fs::path& file, SQLite::Database& logbook, const LinesProgress& copying) {
  const auto copy = connect(file.string(), SQLite::OPEN_READWRITE, Waiting::not_at_all());
  copy_pages(*copy, logbook, copying);
  copy->exec("PRAGMA journal_mode = DELETE");
}

void refuse_misfit(const record::Verification& found, const std::string& path) {
  if (found.is_only_unreadable()) return;
  throw failure::Refusal(fmt::format(
      "{} is not as boltwitness wrote it, so no copy of it was kept beside the good ones; "
      "\"boltwitness verify\" tells what does not fit; go back to the last copy that does",
      path));
}

void refuse_unreadable_line(const record::Verification& found, const std::string& path) {
  if (found.unreadable.empty()) return;
  const auto& first = found.unreadable.front();
  throw failure::Refusal(
      fmt::format("line {} of {} ({}) cannot be read: {}; no copy of it was kept beside the good "
                  "ones; {}",
                  first.line, path, first.kind, first.why,
                  record::how_to_go_on(first, found.what_strikes_do())));
}

}  // namespace

Backup back_up(const std::string& path, const fs::path& folder, record::Moment now,
               std::optional<std::size_t> keep, Waiting& waiting, const LinesProgress& copying,
               const LinesProgress& verifying) {
  try {
    Backup backup;
    const auto stem = fs::path(path).stem().string();
    const auto logbook = open_to_verify(path, waiting);
    {
      const DraftFile draft(folder);
      try {
        copy_to(draft.path(), *logbook.database, copying);
      } catch (const SQLite::Exception& error) {
        if (!is_trouble_with_the_disk(error)) throw;
        throw LogbookError(
            LogbookError::Kind::Unreachable,
            fmt::format(
                "{} could not be copied to {} ({}); nothing is left of the copy; check that "
                "folder and the room on its disk{}",
                path, folder.string(), error.what(), limit_on_files()));
      }
      backup.verified = verify(draft.path().string(), {}, Waiting::not_at_all(), verifying);
      refuse_misfit(backup.verified, path);
      refuse_unreadable_line(backup.verified, path);
      auto name = next_name(folder, stem, now);
      backup.file = folder / write_copy_name(name, stem);
      while (!draft.publish_as(backup.file)) {
        ++name.number;
        backup.file = folder / write_copy_name(name, stem);
      }
    }
    if (keep) remove_older(backup, *logbook.database, stem, *keep);
    return backup;
  } catch (const SQLite::Exception& error) {
    throw translated(error, path);
  }
}

bool is_named_as_copy(const fs::path& file, const fs::path& path) {
  return read_copy_name(file.filename().string(), path.stem().string()).has_value();
}

std::optional<fs::path> newest_copy_of(const std::string& path, const fs::path& folder) {
  auto copies = copies_in(folder, fs::path(path).stem().string());
  if (copies.empty()) return std::nullopt;
  return std::move(copies.back().file);
}

}  // namespace logbook
