#include "tables/table_intake.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <iterator>
#include <unordered_set>

#include "act/joint_entry.h"
#include "act/lookup.h"
#include "act/option_error.h"
#include "failure/failure.h"
#include "quantity/number_text.h"
#include "tables/known_rows.h"
#include "words/text.h"

namespace tables {
namespace {

using exchange::CsvFault;
using exchange::CsvRow;

// "--count" as the column `count`.
std::string_view column_of(std::string_view option) {
  while (option.starts_with('-')) option.remove_prefix(1);
  return option;
}

// A message of the command with the columns as the table has them, not as options.
std::string in_columns(std::string message, const CsvTable& table) {
  for (const auto column : table.columns) {
    const auto option = fmt::format("--{}", column);
    for (auto at = message.find(option); at != std::string::npos; at = message.find(option, at)) {
      message.erase(at, 2);
    }
  }
  return message;
}

std::vector<std::string> header_of(const CsvRow& row) {
  std::vector<std::string> names;
  for (const auto& cell : row) names.emplace_back(quantity::trimmed(cell.text));
  return names;
}

std::vector<std::string> known_columns(const CsvTable& table) {
  std::vector<std::string> names(table.columns.begin(), table.columns.end());
  names.insert(names.end(), table.also_read.begin(), table.also_read.end());
  return names;
}

// How much a header is that of the table; a name that is only near counts half.
std::size_t likeness(const CsvTable& table, const std::vector<std::string>& header) {
  const auto known = known_columns(table);
  std::size_t likeness = 0;
  for (const auto& name : header) {
    if (std::ranges::find(known, name) != known.end()) {
      likeness += 2;
    } else if (!act::nearest(name, known).empty()) {
      likeness += 1;
    }
  }
  return likeness;
}

constexpr std::string_view kNoColumn = "there is no column";

// Columns that are unknown, there twice, or missing.
std::vector<CsvFault> header_faults(const CsvTable& table, const CsvRow& row,
                                    const std::vector<std::string>& header) {
  std::vector<CsvFault> faults;
  const auto known = known_columns(table);
  for (std::size_t i = 0; i < header.size(); ++i) {
    const auto& name = header[i];
    if (std::ranges::find(known, name) == known.end()) {
      faults.push_back({row.front().line, i + 1,
                        fmt::format("{} {} in {}{}", kNoColumn, quantity::quoted(name), table.name,
                                    act::suggestion(name, known))});
    } else if (std::find(header.begin(), header.begin() + static_cast<std::ptrdiff_t>(i), name) !=
               header.begin() + static_cast<std::ptrdiff_t>(i)) {
      faults.push_back(
          {row.front().line, i + 1, fmt::format("the column {} is there twice", name)});
    }
  }
  // Told once, behind the last of those that are unknown.
  const auto unknown =
      std::ranges::find_if(faults.rbegin(), faults.rend(),
                           [](const CsvFault& fault) { return fault.why.starts_with(kNoColumn); });
  if (unknown != faults.rend()) {
    unknown->why += fmt::format("{} known are {}", unknown->why.ends_with('?') ? "" : ";",
                                fmt::join(known, ", "));
  }
  for (const auto needed : table.needed) {
    if (std::ranges::find(header, needed) != header.end()) continue;
    faults.push_back(
        {row.front().line, header.size() + 1, fmt::format("the column {} is missing", needed)});
  }
  return faults;
}

TableColumns columns_in(const std::vector<std::string>& header) {
  TableColumns columns;
  for (std::size_t i = 0; i < header.size(); ++i) columns.emplace(header[i], i);
  return columns;
}

// Checks the rows one by one.
class RowsTaken {
 public:
  RowsTaken(const CsvTable& table, const std::vector<std::string>& header,
            exchange::Decimals decimals, record::Job job, const logbook::Writer& writer)
      : table_(table),
        intake_(std::move(job), writer),
        columns_(columns_in(header)),
        known_(table, columns_, intake_.job()) {
    if (decimals == exchange::Decimals::Point) return;
    for (const auto& [name, place] : columns_) {
      if (is_decimal(table, name)) with_comma_.push_back(place);
    }
  }

  void take(CsvRow cells) {
    if (cells.size() != columns_.size()) {
      faults_.push_back(
          {cells.front().line, std::min(cells.size(), columns_.size()) + 1,
           fmt::format("{} where the header names {}", words::counted(cells.size(), "cell"),
                       words::counted(columns_.size(), "column"))});
      return;
    }
    for (const auto place : with_comma_) {
      cells[place].text = exchange::with_decimal_point(std::move(cells[place].text));
    }
    const TableRow row(columns_, cells);
    try {
      known_.refuse_repeated(cells, row);
      const auto before = intake_.lines().size();
      table_.take(row, intake_);
      known_.refuse_same_values(intake_, before, cells.front().line);
    } catch (const act::OptionError& error) {
      faults_.push_back(fault(cells, column_of(error.option()), error.what()));
    } catch (const failure::Failure& error) {
      faults_.push_back(fault(cells, table_.columns.front(), error.what()));
    }
  }

  [[nodiscard]] const std::vector<CsvFault>& faults() const { return faults_; }
  // With what its joints name that no row and no line of the logbook has.
  [[nodiscard]] std::vector<std::string> remarks() const {
    auto remarks = intake_.remarks();
    for (const auto& line : intake_.lines()) {
      const auto* joint = std::get_if<record::Joint>(&line.content);
      if (joint == nullptr) continue;
      std::ranges::move(act::remarks_on_others(*joint, intake_.joint_codes()),
                        std::back_inserter(remarks));
    }
    return remarks;
  }
  [[nodiscard]] std::vector<NewLine> lines() && { return std::move(intake_).taken(); }

 private:
  [[nodiscard]] CsvFault fault(const CsvRow& cells, std::string_view column,
                               const std::string& why) const {
    // A column that the file leaves out is missed at the row's end.
    const auto at = columns_.find(column);
    const auto cell = at == columns_.end() ? cells.size() - 1 : at->second;
    return {cells.front().line, (at == columns_.end() ? cells.size() : cell) + 1,
            in_columns(why, table_)};
  }

  const CsvTable& table_;
  Intake intake_;
  const TableColumns columns_;
  std::vector<std::size_t> with_comma_;  // where columns stand whose numbers have a decimal comma
  KnownRows known_;
  std::vector<CsvFault> faults_;
};

bool by_line(const CsvFault& a, const CsvFault& b) { return a.line < b.line; }

// The lines on which the rows with a fault begin.
std::unordered_set<std::size_t> lines_of(const std::vector<CsvFault>& faults) {
  std::unordered_set<std::size_t> lines;
  for (const auto& fault : faults) lines.insert(fault.line);
  return lines;
}

}  // namespace

const CsvTable& table_of(const exchange::CsvText& text, std::string_view named) {
  if (!named.empty()) return table_named(named);
  const auto header = text.rows.empty() ? std::vector<std::string>() : header_of(text.rows.front());
  std::vector<std::pair<std::size_t, const CsvTable*>> by_likeness;
  for (const auto* table : all_tables()) {
    by_likeness.emplace_back(likeness(*table, header), table);
  }
  std::ranges::sort(by_likeness, std::ranges::greater{},
                    [](const auto& table) { return table.first; });
  if (by_likeness[0].first == by_likeness[1].first) {
    throw failure::UsageError(
        "the first line does not tell which table this is; expected the names of the columns, as "
        "\"boltwitness export joints\" writes them; or name the table with --as");
  }
  return *by_likeness[0].second;
}

TakenTable take_table(const exchange::CsvText& text, const CsvTable& table, record::Job job,
                      const logbook::Writer& writer, const std::function<void()>& step) {
  if (text.rows.empty())
    throw failure::UsageError("there is nothing in the file, not even a header");
  TakenTable taken{{}, text.faults, header_of(text.rows.front())};
  auto& faults = taken.faults;
  const auto in_header = header_faults(table, text.rows.front(), taken.header);
  faults.insert(faults.end(), in_header.begin(), in_header.end());
  if (in_header.empty()) {
    RowsTaken rows(table, taken.header, text.decimals, std::move(job), writer);
    const auto unreadable = lines_of(text.faults);
    for (std::size_t i = 1; i < text.rows.size(); ++i) {
      if (!unreadable.contains(text.rows[i].front().line)) rows.take(text.rows[i]);
      step();
    }
    faults.insert(faults.end(), rows.faults().begin(), rows.faults().end());
    taken.remarks = rows.remarks();
    taken.lines = std::move(rows).lines();
  }
  std::ranges::stable_sort(faults, by_line);
  return taken;
}

std::string faults_text(std::string_view file, const TakenTable& taken) {
  constexpr std::size_t kMostShown = 50;
  const auto& faults = taken.faults;
  auto text =
      fmt::format("{}: {}; nothing was written", file, words::counted(faults.size(), "fault"));
  for (std::size_t i = 0; i < std::min(faults.size(), kMostShown); ++i) {
    const auto& fault = faults[i];
    const auto name = fault.column <= taken.header.size() && fault.line > 1
                          ? fmt::format(" ({})", taken.header[fault.column - 1])
                          : "";
    text += fmt::format("\nline {}, column {}{}: {}", fault.line, fault.column, name, fault.why);
  }
  if (faults.size() > kMostShown) text += fmt::format("\nand {} more", faults.size() - kMostShown);
  return text;
}

}  // namespace tables
