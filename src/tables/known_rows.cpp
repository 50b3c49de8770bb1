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

// Cells or rows that differ never come to the same text.
void add_cell(std::string& text, std::string_view cell) {
  const auto size = cell.size();
  text.append(reinterpret_cast<const char*>(&size), sizeof size);
  text += cell;
}

// A job of these lines alone.
record::Job job_of(std::span<const NewLine> lines) {
  record::Job job;
  for (const auto& line : lines) {
    record::Stamp stamp;
    stamp.by = line.by;
    stamp.done_at = line.done_at;
    std::visit(
        [&]<class Kind>(const Kind& content) {
          if constexpr (record::KeptInJob<Kind>) {
            record::entries_of<Kind>(job).push_back({stamp, content});
          }
        },
        line.content);
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
  const auto know = [&](const record::Job& known) {
    for (const auto& row : table.rows_of(known)) said_.add(as_given(row), 0);
  };
  know(job);
  record::Job same;
  same.joints = job.joints;
  same.specifications = job.specifications;
  same.wrenches = job.wrenches;
  same.findings = job.findings;
  same.tightenings = job.tightenings;
  same.photographs = job.photographs;
  forget_typing(same);
  know(same);
}

void KnownRows::refuse_repeated(const exchange::CsvRow& cells, const TableRow& row) {
  text_.clear();
  for (const auto& cell : cells) add_cell(text_, cell.text);
  last_typed_ = RowMarks::mark_of(text_);
  std::vector<std::string> values;
  for (const auto column : table_.columns) values.push_back(row[column]);
  last_said_ = as_given(values);
  if (const auto known = said_.line_of(last_said_)) refuse_as(*known);
  if (const auto before = typed_.line_of(last_typed_)) refuse_as(*before);
}

void KnownRows::refuse_same_values(std::span<const NewLine> lines, std::size_t line) {
  auto added = job_of(lines);
  forget_typing(added);
  for (const auto& row : table_.rows_of(added)) {
    if (const auto known = said_.add(as_given(row), line)) refuse_as(*known);
  }
}

void KnownRows::remember(std::size_t line) {
  // Most rows are typed as export writes them and so are known by what they say.
  if (!said_.line_of(last_said_)) typed_.add(last_typed_, line);
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
RowMarks::Mark KnownRows::as_given(const std::vector<std::string>& cells) {
  text_.clear();
  for (std::size_t i = 0; i < cells.size(); ++i) add_cell(text_, is_given_[i] ? cells[i] : "");
  return RowMarks::mark_of(text_);
}

}  // namespace tables
