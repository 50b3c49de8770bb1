#include "tables/table_intake.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <iterator>

#include "act/joint_entry.h"
#include "act/lookup.h"
#include "act/option_error.h"
#include "failure/failure.h"
#include "quantity/number_text.h"
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

constexpr std::size_t kMostFaultsShown = 50;
constexpr std::size_t kMostFaultsCounted = 100'000;

}  // namespace

const CsvTable& table_of(const CsvRow* header_row, std::string_view named) {
  if (!named.empty()) return table_named(named);
  const auto header = header_row == nullptr ? std::vector<std::string>() : header_of(*header_row);
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

TableIntake::TableIntake(const CsvTable& table, const CsvRow& header,
                         const std::vector<CsvFault>& of_header, exchange::Decimals decimals,
                         record::Job job, const logbook::Writer& writer,
                         const FileBeside& file_beside)
    : table_(table),
      header_(header_of(header)),
      columns_(columns_in(header_)),
      intake_(std::move(job), writer, file_beside),
      known_(table, columns_, intake_.job()) {
  for (const auto& [name, place] : columns_) {
    if (decimals == exchange::Decimals::Comma && is_decimal(table, name)) {
      with_comma_.push_back(place);
    }
  }
  add_faults(of_header);
  const auto in_header = header_faults(table, header, header_);
  is_header_known_ = in_header.empty();
  add_faults(in_header);
}

std::vector<NewLine> TableIntake::take(const CsvRow& cells, const std::vector<CsvFault>& unread) {
  add_faults(unread);
  if (!unread.empty() || !is_header_known_) return {};
  return taken(cells);
}

std::vector<NewLine> TableIntake::taken(CsvRow cells) {
  if (cells.size() != columns_.size()) {
    add_faults({{cells.front().line, std::min(cells.size(), columns_.size()) + 1,
                 fmt::format("{} where the header names {}", words::counted(cells.size(), "cell"),
                             words::counted(columns_.size(), "column"))}});
    return {};
  }
  for (const auto place : with_comma_) {
    cells[place].text = exchange::with_decimal_point(std::move(cells[place].text));
  }
  const TableRow row(columns_, cells);
  const auto line = cells.front().line;
  std::vector<NewLine> lines;
  try {
    known_.refuse_repeated(cells, row);
    table_.take(row, intake_);
    lines = intake_.take_lines();
    for (const auto& added : lines) {
      if (const auto* joint = std::get_if<record::Joint>(&added.content)) joints_.push_back(*joint);
    }
    known_.refuse_same_values(lines, line);
    known_.remember(line);
    return lines;
  } catch (const act::OptionError& error) {
    add_faults({fault(cells, column_of(error.option()), error.what())});
  } catch (const failure::Failure& error) {
    add_faults({fault(cells, table_.columns.front(), error.what())});
  }
  known_.remember(line);
  (void)intake_.take_lines();
  return {};
}

bool TableIntake::is_worth_going_on() const {
  return is_header_known_ && fault_count_ < kMostFaultsCounted;
}

void TableIntake::add_faults(const std::vector<CsvFault>& faults) {
  fault_count_ += faults.size();
  for (const auto& each : faults) {
    if (faults_.size() < kMostFaultsShown) faults_.push_back(each);
  }
}

CsvFault TableIntake::fault(const CsvRow& cells, std::string_view column,
                            const std::string& why) const {
  // A column that the file leaves out is missed at the row's end.
  const auto at = columns_.find(column);
  const auto cell = at == columns_.end() ? cells.size() - 1 : at->second;
  return {cells.front().line, (at == columns_.end() ? cells.size() : cell) + 1,
          in_columns(why, table_)};
}

// With what its joints name that no row and no line of the logbook has.
std::vector<std::string> TableIntake::remarks() {
  auto remarks = intake_.remarks();
  for (const auto& joint : joints_) {
    std::ranges::move(act::remarks_on_others(joint, intake_.joint_codes()),
                      std::back_inserter(remarks));
  }
  return remarks;
}

std::string TableIntake::faults_text(std::string_view file) const {
  auto text =
      fmt::format("{}: {}{}; nothing was written", file, words::counted(fault_count_, "fault"),
                  fault_count_ < kMostFaultsCounted ? "" : ", and what follows was not looked at");
  for (const auto& fault : faults_) {
    const auto name = fault.column <= header_.size() && fault.line > 1
                          ? fmt::format(" ({})", header_[fault.column - 1])
                          : "";
    text += fmt::format("\nline {}, column {}{}: {}", fault.line, fault.column, name, fault.why);
  }
  if (fault_count_ > faults_.size()) {
    text += fmt::format("\nand {} more", fault_count_ - faults_.size());
  }
  return text;
}

}  // namespace tables
