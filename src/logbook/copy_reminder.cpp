#include "logbook/copy_reminder.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <chrono>
#include <sstream>
#include <system_error>

#include "failure/failure.h"
#include "logbook/backup.h"
#include "logbook/draft_file.h"
#include "logbook/guarded.h"
#include "logbook/logbook.h"
#include "logbook/logbook_error.h"
#include "logbook/logbook_file.h"
#include "logbook/plain_file.h"

namespace logbook {
namespace {

namespace fs = std::filesystem;

struct KnownCopy {
  record::Moment made_at;
  std::string last_id;
};

// One file a logbook, named after its first line. Nothing for an id that is none: the logbook may
// come from anywhere, and its words are not to lead out of the folder.
std::optional<fs::path> note_of(const fs::path& folder, const std::string& first_id) {
  constexpr std::size_t kIdLength = 36;
  if (first_id.size() != kIdLength ||
      first_id.find_first_not_of("0123456789abcdef-") != std::string::npos) {
    return std::nullopt;
  }
  return folder / "copies" / first_id;
}

std::optional<KnownCopy> noted(const fs::path& folder, const std::string& first_id) {
  std::string made_at;
  std::string last_id;
  const auto file = note_of(folder, first_id);
  if (!file) return std::nullopt;
  constexpr std::size_t kMostBytes = 128;
  std::istringstream note(begin_of_plain_file(*file, kMostBytes));
  if (!(note >> made_at >> last_id)) return std::nullopt;
  try {
    return KnownCopy{record::read_utc(made_at), last_id};
  } catch (const failure::InputError&) {
    return std::nullopt;
  }
}

// The ids of its first and last line; of any version, since bringing it up to date to be asked for
// these would take as long as that takes.
struct Ends {
  std::string first_id;
  std::string last_id;
};

Ends ends_of(const std::string& copy) {
  return guarded(copy, [&] {
    const auto open = open_to_verify(copy, Waiting::not_at_all());
    SQLite::Statement row(*open.database, R"(
        SELECT coalesce((SELECT id FROM entry ORDER BY line LIMIT 1), ''),
               coalesce((SELECT id FROM entry ORDER BY line DESC LIMIT 1), ''))");
    row.executeStep();
    return Ends{row.getColumn(0).getString(), row.getColumn(1).getString()};
  });
}

std::optional<KnownCopy> newest_in(const fs::path& folder, const Logbook& logbook) {
  const auto copy = newest_copy_of(logbook.path(), folder);
  if (!copy) return std::nullopt;
  try {
    const auto ends = ends_of(copy->string());
    if (ends.first_id != logbook.first_id()) return std::nullopt;
    const auto written = std::chrono::file_clock::to_sys(fs::last_write_time(*copy));
    return KnownCopy{std::chrono::floor<std::chrono::milliseconds>(written), ends.last_id};
  } catch (const failure::Failure&) {
    return std::nullopt;  // no copy to go back to
  } catch (const fs::filesystem_error&) {
    return std::nullopt;
  }
}

Uncopied beyond(const Logbook& logbook, const std::optional<KnownCopy>& copy) {
  const auto tail = logbook.lines_after(copy ? copy->last_id : std::string());
  Uncopied rest{std::nullopt, tail.lines, tail.first_entered};
  if (copy) rest.copied_at = copy->made_at;
  return rest;
}

}  // namespace

bool Uncopied::is_due(record::Day today) const {
  return since && record::local_day(*since) < today;
}

void remember_copy(const fs::path& folder, const std::string& copy, record::Moment made_at) {
  try {
    const auto ends = ends_of(copy);
    const auto note = note_of(folder, ends.first_id);
    if (!note) return;
    std::error_code problem;
    fs::create_directories(note->parent_path(), problem);
    const auto text = record::write_utc(made_at) + '\n' + ends.last_id + '\n';
    const DraftFile draft(note->parent_path());
    if (draft.fill(text)) draft.replace(*note);
  } catch (const LogbookError&) {
    return;
  }
}

Uncopied uncopied(const Logbook& logbook, const std::optional<fs::path>& folder) {
  auto rest = beyond(logbook, folder ? noted(*folder, logbook.first_id()) : std::nullopt);
  if (rest.lines == 0) return rest;
  const auto here = fs::absolute(logbook.path()).parent_path();
  for (const auto& beside : {here / "copies", here}) {
    if (const auto copy = newest_in(beside, logbook)) {
      auto by_that = beyond(logbook, copy);
      if (by_that.lines < rest.lines) rest = std::move(by_that);
      if (rest.lines == 0) break;
    }
  }
  return rest;
}

}  // namespace logbook
