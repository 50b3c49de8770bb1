#include <fmt/format.h>

#include "act/hold_point_entry.h"
#include "act/lookup.h"
#include "act/option_error.h"
#include "act/tightening_entry.h"
#include "quantity/angle_text.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "record/pass_target_text.h"
#include "record/typed_text.h"
#include "tables/csv_table.h"
#include "tables/stamp_cells.h"
#include "tables/wrench_cells.h"

namespace tables {
namespace {

std::vector<std::vector<std::string>> tightening_rows(const record::Job& job) {
  std::vector<std::vector<std::string>> rows;
  for (const auto& entry : job.tightenings) {
    const auto& work = entry.content;
    auto& row = rows.emplace_back(std::vector<std::string>{
        record::address_text(work), std::to_string(work.pass), record::write_exact(work.target),
        work.wrench, work.setting ? quantity::write_exact(*work.setting) : "",
        work.wrench.empty() ? "" : std::string(quantity::name_of(work.unit))});
    add_adapter_cells(row, work.adapter);
    row.push_back(work.turned ? quantity::write_exact(*work.turned) : "");
    row.push_back(work.skipped_why);
    row.push_back(yes_or_nothing(work.second_check));
    row.push_back(work.seen);
    add_stamp_cells(row, entry.stamp);
  }
  return rows;
}

record::Address address_in(const TableRow& row, Intake& intake) {
  return act::of_option("address", [&] {
    auto address = record::read_address_in_order(row["address"]);
    const auto& joint = intake.joint_or_refuse(address.joint);
    act::check_positions(joint, address.positions);
    (void)act::check_hold_points(intake.job(), joint.code, intake.done_at(row), intake.now());
    address.joint = joint.code;
    return address;
  });
}

// What the row says was asked for, else what the plan asks for.
record::PassTarget target_in(const TableRow& row, const record::Address& address, int pass,
                             Intake& intake) {
  if (const auto asked = row.with_scale_unit("asked", "unit"); !quantity::trimmed(asked).empty()) {
    return act::of_option("asked", [&] { return record::read_pass_target(asked); });
  }
  return act::of_option("pass", [&] {
    return act::target_in_plan(intake.progress(), address.joint, address.positions, pass);
  });
}

// The row as the command takes it.
act::TighteningWords words_in(const TableRow& row) {
  act::TighteningWords words;
  words.pass = row["pass"];
  words.wrench = row["wrench"];
  words.set = row["set"];
  words.turned = row["turned"];
  words.skip = row["skip"];
  words.check = row.yes("check");
  words.seen = row["seen"];
  words.adapter = adapter_options_in(row);
  return words;
}

void take_tightening(const TableRow& row, Intake& intake) {
  const auto address = address_in(row, intake);
  const auto work = act::work_from(words_in(row), address);
  if (!work.pass) throw act::OptionError("pass", "expected the number of the pass");
  const auto target = target_in(row, address, *work.pass, intake);
  const auto tightening =
      act::tightening_from(work, *work.pass, target, nullptr, [&](const std::string& name) {
        const auto& wrench = act::of_option(
            "wrench", [&]() -> const record::Wrench& { return intake.wrench_or_refuse(name); });
        check_scale_unit(row, wrench);
        return wrench;
      });
  if (work.second_check) {
    act::of_option("by", [&] {
      act::check_second_person(intake.job(), intake.progress(), work.joint, work.positions,
                               intake.by(row), intake.done_at(row));
    });
  }
  intake.add(row, tightening);
}

}  // namespace

const CsvTable& tightening_table() {
  static const CsvTable table{
      "tightenings",
      {"address", "pass", "asked", "wrench", "set", "unit", "extension", "wrench-length",
       "adapter-angle", "turned", "skip", "check", "seen", "by", "at"},
      {},
      {"address", "pass"},
      {"asked", "set", "extension", "wrench-length", "adapter-angle", "turned"},
      tightening_rows,
      take_tightening,
      true};
  return table;
}

}  // namespace tables
