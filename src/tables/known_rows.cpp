#include "tables/known_rows.h"

#include <fmt/format.h>

#include "act/option_error.h"
#include "quantity/length_text.h"

namespace tables {
namespace {

// Says in the program's own words what is kept as it was typed, so that the values are compared.
void forget_typing(record::Job& job) {
  for (auto& entry : job.joints) entry.content.length_typed.clear();
  for (auto& entry : job.wrenches) {
    entry.content.scale_typed.clear();
    entry.content.graduation_typed.clear();
    entry.content.accuracy_typed.clear();
  }
  for (auto& entry : job.specifications) {
    entry.content.typed = record::write_exact(entry.content.procedure);
  }
  for (auto& entry : job.findings) {
    auto& measured = entry.content;
    measured.readings_typed.clear();
    if (measured.radius_typed.empty()) continue;
    measured.radius_typed = quantity::write_exact(quantity::read_length(measured.radius_typed));
  }
}

// A job of these lines alone.
record::Job job_of(const std::vector<NewLine>& lines, std::size_t first) {
  record::Job job;
  for (std::size_t i = first; i < lines.size(); ++i) {
    record::Stamp stamp;
    stamp.by = lines[i].by;
    stamp.done_at = lines[i].done_at;
    std::visit(
        [&]<class Kind>(const Kind& content) {
          if constexpr (record::KeptInJob<Kind>) {
            record::entries_of<Kind>(job).push_back({stamp, content});
          }
        },
        lines[i].content);
  }
  return job;
}

}  // namespace

KnownRows::KnownRows(const CsvTable& table, const TableColumns& columns, const record::Job& job)
    : table_(table) {
  // "really" is an answer to a doubt and no value of its own.
  for (const auto column : table.columns) {
    is_given_.push_back(columns.contains(column) && column != "really");
  }
  for (auto& row : table.rows_of(job)) lines_.emplace(as_given(std::move(row)), 0);
  record::Job same;
  same.joints = job.joints;
  same.specifications = job.specifications;
  same.wrenches = job.wrenches;
  same.findings = job.findings;
  same.tightenings = job.tightenings;
  same.photographs = job.photographs;
  forget_typing(same);
  for (auto& row : table.rows_of(same)) lines_.emplace(as_given(std::move(row)), 0);
}

void KnownRows::refuse_repeated(const exchange::CsvRow& cells, const TableRow& row) {
  std::vector<std::string> as_typed;
  for (const auto& cell : cells) as_typed.push_back(cell.text);
  const auto line = cells.front().line;
  const auto [before, is_new] = typed_.emplace(exchange::write_csv_row(as_typed), line);
  std::vector<std::string> values;
  for (const auto column : table_.columns) values.push_back(row[column]);
  const auto known = lines_.find(as_given(std::move(values)));
  if (known != lines_.end()) refuse_as(known->second);
  if (!is_new) refuse_as(before->second);
}

void KnownRows::refuse_same_values(const Intake& intake, std::size_t first, std::size_t line) {
  auto added = job_of(intake.lines(), first);
  forget_typing(added);
  for (auto& row : table_.rows_of(added)) {
    const auto [known, is_new] = lines_.emplace(as_given(std::move(row)), line);
    if (!is_new) refuse_as(known->second);
  }
}

void KnownRows::refuse_as(std::size_t known_line) const {
  if (known_line == 0) {
    throw act::OptionError(table_.columns.front(),
                           "the logbook says just this already; was the file imported before?");
  }
  throw act::OptionError(
      table_.columns.front(),
      fmt::format("says the same as line {} of this file; leave one out, or where it was done "
                  "twice, give each its own time under at",
                  known_line));
}

// A row without what the file leaves out.
std::string KnownRows::as_given(std::vector<std::string> cells) const {
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (!is_given_[i]) cells[i].clear();
  }
  return exchange::write_csv_row(cells);
}

}  // namespace tables
