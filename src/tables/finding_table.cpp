#include <fmt/format.h>

#include "act/finding_entry.h"
#include "act/hold_point_entry.h"
#include "act/lookup.h"
#include "act/option_error.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "tables/csv_table.h"
#include "tables/stamp_cells.h"
#include "tables/wrench_cells.h"

namespace tables {
namespace {

std::vector<std::vector<std::string>> finding_rows(const record::Job& job) {
  std::vector<std::vector<std::string>> rows;
  for (const auto& entry : job.findings) {
    const auto& measured = entry.content;
    auto& row = rows.emplace_back(std::vector<std::string>{
        record::write_address(measured.joint, measured.position), record::readings_text(measured),
        measured.wrench, std::string(quantity::name_of(measured.unit)), measured.radius_typed,
        std::string(record::word_of(measured.restart)),
        measured.neighbours ? std::string(record::word_of(*measured.neighbours)) : "",
        measured.prevailing ? quantity::write_exact(*measured.prevailing) : ""});
    add_adapter_cells(row, measured.adapter);
    add_stamp_cells(row, entry.stamp);
  }
  return rows;
}

void take_finding(const TableRow& row, Intake& intake) {
  act::FindingWords options;
  options.readings = {row["readings"]};
  options.radius = row["radius"];
  options.restart = row["restart"];
  options.neighbours = row["neighbours"];
  options.prevailing = row.with_scale_unit("prevailing", "unit");
  options.adapter = adapter_options_in(row);
  const auto address = act::of_option("address", [&] {
    auto read = record::read_address(row["address"]);
    if (read.positions.size() != 1) {
      throw failure::InputError(
          fmt::format("{}: a finding is of one fastener; expected one position, such as {}/1",
                      quantity::quoted(row["address"]), read.joint));
    }
    const auto& joint = intake.joint_or_refuse(read.joint);
    act::check_positions(joint, read.positions);
    (void)act::check_hold_points(intake.job(), joint.code, intake.done_at(row), intake.now());
    return read;
  });
  const auto& wrench = act::of_option(
      "wrench", [&]() -> const record::Wrench& { return intake.wrench_or_refuse(row["wrench"]); });
  check_scale_unit(row, wrench);
  intake.add(row, act::finding_from(options, intake.joint_or_refuse(address.joint),
                                    address.positions.front(), wrench));
}

}  // namespace

const CsvTable& finding_table() {
  static const CsvTable table{
      "findings",
      {"address", "readings", "wrench", "unit", "radius", "restart", "neighbours", "prevailing",
       "extension", "wrench-length", "adapter-angle", "by", "at"},
      {},
      {"address", "readings", "wrench"},
      {"readings", "radius", "prevailing", "extension", "wrench-length", "adapter-angle"},
      finding_rows,
      take_finding,
      true};
  return table;
}

}  // namespace tables
