#include "logbook/backup.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <system_error>
#include <tuple>

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

std::string with_time(const std::string& stem, record::Moment now) {
  auto time = record::write_local(now);  // "2026-03-02 08:15"
  std::erase(time, ':');
  std::ranges::replace(time, ' ', '-');
  return stem + '-' + time;
}

// True for the stem, date and time and, where two came in one minute, a number.
bool is_copy_name(std::string_view name, std::string_view stem) {
  if (!name.starts_with(stem) || !name.ends_with(kLogbookSuffix)) return false;
  name.remove_prefix(stem.size());
  name.remove_suffix(kLogbookSuffix.size());
  if (name.size() < kTimeShape.size()) return false;
  for (std::size_t i = 0; i < kTimeShape.size(); ++i) {
    const bool digit = name[i] >= '0' && name[i] <= '9';
    if (kTimeShape[i] == 'd' ? !digit : name[i] != kTimeShape[i]) return false;
  }
  name.remove_prefix(kTimeShape.size());
  return name.empty() || (name.front() == '-' && name.size() > 1 &&
                          name.find_first_not_of("0123456789", 1) == std::string_view::npos);
}

struct OlderCopy {
  fs::path file;
  Containment what = Containment::Other;
  std::int64_t lines = 0;
};

// What an older file is to the logbook: another one's, one that it contains, or one that it grew
// apart from.
OlderCopy judged(const fs::path& file, SQLite::Database& logbook) {
  OlderCopy older{file};
  try {
    const auto copy = open_to_verify(file.string(), Waiting::not_at_all());
    older.what = containment_of(*copy.database, logbook);
    older.lines = copy.database->execAndGet("SELECT max(line) FROM entry").getInt64();
  } catch (const LogbookError&) {
    older.what = Containment::Other;
  } catch (const SQLite::Exception&) {
    older.what = Containment::Other;
  }
  return older;
}

// The copies of this name.
std::vector<fs::path> copies_in(const fs::path& folder, const std::string& stem) {
  std::error_code problem;
  std::vector<fs::path> files;
  for (fs::directory_iterator at(folder, problem), end; !problem && at != end;
       at.increment(problem)) {
    std::error_code ignored;
    if (is_copy_name(at->path().filename().string(), stem) && at->is_regular_file(ignored)) {
      files.push_back(at->path());
    }
  }
  std::ranges::sort(files);
  return files;
}

void remove_older(Backup& backup, SQLite::Database& logbook, const std::string& stem,
                  std::size_t keep) {
  std::vector<OlderCopy> removable;
  for (const auto& file : copies_in(backup.file.parent_path(), stem)) {
    if (file == backup.file) continue;
    auto older = judged(file, logbook);
    if (older.what == Containment::Different) backup.different.push_back(file);
    if (older.what == Containment::Contained) removable.push_back(std::move(older));
  }
  // The oldest first: it has fewer lines.
  std::ranges::sort(removable, [](const OlderCopy& a, const OlderCopy& b) {
    return std::tie(a.lines, a.file) < std::tie(b.lines, b.file);
  });
  for (std::size_t i = 0; i + keep - 1 < removable.size(); ++i) {
    std::error_code problem;
    if (fs::remove(removable[i].file, problem)) backup.removed.push_back(removable[i].file);
  }
}

// One file, which stays one when it is looked at.
void copy_to(const fs::path& file, SQLite::Database& logbook) {
  const auto copy = connect(file.string(), SQLite::OPEN_READWRITE, Waiting::not_at_all());
  copy_pages(*copy, logbook);
  copy->exec("PRAGMA journal_mode = DELETE");
}

void refuse_misfit(const record::Verification& found, const std::string& path) {
  if (found.is_as_written()) return;
  throw failure::Refusal(fmt::format(
      "{} is not as boltwitness wrote it, so no copy of it was kept beside the good ones; "
      "\"boltwitness verify\" tells what does not fit; go back to the last copy that does",
      path));
}

void refuse_unreadable_line(const record::Verification& found, const std::string& path) {
  if (found.unreadable.empty()) return;
  const auto& first = found.unreadable.front();
  const bool do_mend = std::ranges::all_of(found.unreadable, record::can_be_struck) &&
                       std::ranges::all_of(found.signatures, &record::SignatureCheck::fits);
  const auto strikes = do_mend ? record::Strikes::Mend : record::Strikes::AreNotEnough;
  throw failure::Refusal(
      fmt::format("line {} of {} ({}) cannot be read: {}; no copy of it was kept beside the good "
                  "ones; {}",
                  first.line, path, first.kind, first.why, record::how_to_go_on(first, strikes)));
}

}  // namespace

Backup back_up(const std::string& path, const fs::path& folder, record::Moment now,
               std::optional<std::size_t> keep, Waiting& waiting) {
  try {
    Backup backup;
    const auto stem = fs::path(path).stem().string();
    const auto logbook = open_to_verify(path, waiting);
    {
      const DraftFile draft(folder);
      try {
        copy_to(draft.path(), *logbook.database);
      } catch (const SQLite::Exception& error) {
        if (!is_trouble_with_the_disk(error)) throw;
        throw LogbookError(
            LogbookError::Kind::Unreachable,
            fmt::format(
                "{} could not be copied to {} ({}); nothing is left of the copy; check that "
                "folder and the room on its disk{}",
                path, folder.string(), error.what(), limit_on_files()));
      }
      backup.verified = verify(draft.path().string(), {}, Waiting::not_at_all());
      refuse_misfit(backup.verified, path);
      refuse_unreadable_line(backup.verified, path);
      const auto name = with_time(stem, now);
      backup.file = folder / fmt::format("{}{}", name, kLogbookSuffix);
      for (int number = 2; !draft.publish_as(backup.file); ++number) {
        backup.file = folder / fmt::format("{}-{}{}", name, number, kLogbookSuffix);
      }
    }
    if (keep) remove_older(backup, *logbook.database, stem, *keep);
    return backup;
  } catch (const SQLite::Exception& error) {
    throw translated(error, path);
  }
}

bool is_named_as_copy(const fs::path& file, const fs::path& path) {
  return is_copy_name(file.filename().string(), path.stem().string());
}

std::optional<fs::path> newest_copy_of(const std::string& path, const fs::path& folder) {
  auto copies = copies_in(folder, fs::path(path).stem().string());
  if (copies.empty()) return std::nullopt;
  return std::move(copies.back());
}

}  // namespace logbook
