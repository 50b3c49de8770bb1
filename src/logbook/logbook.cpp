#include "logbook/logbook.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

#include <algorithm>

#include "logbook/copied_rows.h"
#include "logbook/guarded.h"
#include "logbook/logbook_file.h"
#include "logbook/rows/disposition_rows.h"
#include "logbook/rows/finding_rows.h"
#include "logbook/rows/fluid_rows.h"
#include "logbook/rows/hold_point_rows.h"
#include "logbook/rows/item_rows.h"
#include "logbook/rows/joint_rows.h"
#include "logbook/rows/pull_rows.h"
#include "logbook/rows/recheck_rows.h"
#include "logbook/rows/removal_rows.h"
#include "logbook/rows/renewal_rows.h"
#include "logbook/rows/specification_rows.h"
#include "logbook/rows/start_rows.h"
#include "logbook/rows/strike_rows.h"
#include "logbook/rows/stripe_rows.h"
#include "logbook/rows/tightening_rows.h"
#include "logbook/rows/wrench_rows.h"

namespace logbook {
namespace {

// Of entries with one key the latest counts.
template <class Content>
std::optional<record::Entry<Content>> latest(std::vector<record::Entry<Content>> entries) {
  if (entries.empty()) return std::nullopt;
  return std::move(entries.back());
}

std::vector<std::string> texts(SQLite::Database& database, const char* sql) {
  SQLite::Statement row(database, sql);
  std::vector<std::string> found;
  while (row.executeStep()) found.push_back(row.getColumn(0).getString());
  return found;
}

}  // namespace

Logbook::Logbook(std::string path, std::unique_ptr<SQLite::Database> database)
    : path_(std::move(path)), database_(std::move(database)) {}
Logbook::Logbook(Logbook&&) noexcept = default;
Logbook& Logbook::operator=(Logbook&&) noexcept = default;
Logbook::~Logbook() = default;

Logbook Logbook::open_to_read(const std::string& path) {
  return {path, logbook::open_to_read(path)};
}

Logbook Logbook::open_unchanged(const std::string& path) {
  return {path, logbook::open_unchanged(path)};
}

Logbook Logbook::open_to_write(const std::string& path) {
  return {path, logbook::open_to_write(path)};
}

record::Job Logbook::job() const { return job_about(std::nullopt); }

record::Job Logbook::job_of(std::string_view joint) const { return job_about(joint); }

record::Job Logbook::job_about(std::optional<std::string_view> joint) const {
  return guarded(path_, [&] {
    // Inside a recording its transaction is the one to read in; else one of its own, so that all
    // kinds are of the same moment.
    std::optional<SQLite::Transaction> moment;
    if (sqlite3_get_autocommit(database_->getHandle()) != 0) moment.emplace(*database_);
    return record::Job{read_start(*database_).content,
                       read_wrenches(*database_),
                       read_joints(*database_, {joint}),
                       read_specifications(*database_, {joint}),
                       read_removals(*database_, {joint}),
                       read_findings(*database_, {joint}),
                       read_pulls(*database_, {joint}),
                       read_fluids(*database_),
                       read_items(*database_),
                       read_item_returns(*database_),
                       read_hold_points(*database_),
                       read_hold_point_steps(*database_),
                       read_renewals(*database_, {joint}),
                       read_tightenings(*database_, {joint}),
                       read_stripes(*database_, {joint}),
                       read_rechecks(*database_, {joint}),
                       read_dispositions(*database_, {joint})};
  });
}

std::vector<record::HistoryLine> Logbook::history() const {
  return guarded(path_, [&] {
    const SQLite::Transaction moment(*database_);
    const RowFilter all{std::nullopt, true};
    std::vector<record::HistoryLine> lines;
    const auto add = [&](auto entries) {
      for (auto& entry : entries) {
        lines.push_back({std::move(entry.stamp), std::move(entry.content), std::nullopt, {}});
      }
    };
    auto start = read_start(*database_);
    lines.push_back({std::move(start.stamp), std::move(start.content), std::nullopt, {}});
    add(read_wrenches(*database_, all));
    add(read_joints(*database_, all));
    add(read_specifications(*database_, all));
    add(read_removals(*database_, all));
    add(read_findings(*database_, all));
    add(read_pulls(*database_, all));
    add(read_fluids(*database_, all));
    add(read_items(*database_, all));
    add(read_item_returns(*database_, all));
    add(read_hold_points(*database_, all));
    add(read_hold_point_steps(*database_, all));
    add(read_renewals(*database_, all));
    add(read_tightenings(*database_, all));
    add(read_stripes(*database_, all));
    add(read_rechecks(*database_, all));
    add(read_dispositions(*database_, all));
    std::ranges::sort(lines, {}, [](const auto& line) { return line.stamp.id; });
    for (auto& strike : read_strikes(*database_)) {
      const auto struck = std::ranges::lower_bound(lines, strike.content.struck_id, {},
                                                   [](const auto& line) { return line.stamp.id; });
      if (struck == lines.end() || struck->stamp.id != strike.content.struck_id) continue;
      struck->struck_by = std::move(strike.stamp);
      struck->struck_why = std::move(strike.content.reason);
    }
    return lines;
  });
}

record::LogbookCopy Logbook::copy() const {
  return guarded(path_, [&] {
    const SQLite::Transaction moment(*database_);
    return read_copy(*database_);
  });
}

std::optional<record::Entry<record::Joint>> Logbook::joint(std::string_view code) const {
  return guarded(path_, [&] { return latest(read_joints(*database_, {code})); });
}

std::optional<record::Entry<record::Wrench>> Logbook::wrench(std::string_view name) const {
  return guarded(path_, [&] { return latest(read_wrenches(*database_, {name})); });
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

std::int64_t Logbook::last_line() const {
  return guarded(path_, [&]() -> std::int64_t {
    return database_->execAndGet("SELECT coalesce(max(line), 0) FROM entry").getInt64();
  });
}

std::vector<std::string> Logbook::joint_codes() const {
  return guarded(
      path_, [&] { return texts(*database_, "SELECT code FROM current_joint ORDER BY entry_id"); });
}

std::vector<std::string> Logbook::wrench_names() const {
  return guarded(path_, [&] {
    return texts(*database_, R"(
        SELECT w.name FROM wrench w JOIN current_entry e ON e.id = w.entry_id
        GROUP BY w.name ORDER BY min(w.entry_id))");
  });
}

}  // namespace logbook
