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
        fmt::format("{}/{}", work.joint, record::write_positions(work.positions)),
        std::to_string(work.pass), record::write_exact(work.target), work.wrench,
        work.setting ? quantity::write_exact(*work.setting) : "",
        work.wrench.empty() ? "" : std::string(quantity::name_of(work.unit))});
    add_adapter_cells(row, work.adapter);
    row.push_back(work.turned ? quantity::write_exact(*work.turned) : "");
    row.push_back(work.skipped_why);
    row.push_back(yes_or_nothing(work.second_check));
    add_stamp_cells(row, entry.stamp);
  }
  return rows;
}

record::Address address_in(const TableRow& row, Intake& intake) {
  return act::of_option("address", [&] {
    auto address = record::read_address(row["address"]);
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

void set_wrench(record::Tightening& work, const TableRow& row, const Intake& intake) {
  if (const auto name = row["wrench"]; !name.empty()) {
    const auto& wrench = act::of_option(
        "wrench", [&]() -> const record::Wrench& { return intake.wrench_or_refuse(name); });
    check_scale_unit(row, wrench);
    work.wrench = wrench.name;
    work.unit = wrench.scale.unit;
    if (const auto set = row["set"]; !set.empty()) {
      work.setting = act::of_option("set", [&] {
        const double setting = record::read_setting(set);
        act::check_settable(wrench, setting);
        return setting;
      });
    }
  } else if (!row["set"].empty()) {
    throw act::OptionError("wrench",
                           "a setting stands on the scale of a wrench; expected its name");
  }
  if (work.target.torque && !work.setting && !record::is_skipped(work)) {
    throw act::OptionError("set", "a pass to a torque; expected what the wrench was set to");
  }
  if (const auto adapter =
          act::of_option("extension", [&] { return act::adapter_from(adapter_options_in(row)); })) {
    work.adapter = *adapter;
  }
}

void check_turned(const record::Tightening& work) {
  if (!work.turned) return;
  if (work.target.kind != record::PassKind::Angle) {
    throw act::OptionError("turned", fmt::format("belongs to an angle pass; this one is {}",
                                                 record::word_of(work.target.kind)));
  }
  if (!record::is_work(work)) {
    throw act::OptionError("turned", "a pass that was left out or only checked turned nothing");
  }
}

void take_tightening(const TableRow& row, Intake& intake) {
  const auto address = address_in(row, intake);
  record::Tightening work;
  work.joint = address.joint;
  work.positions = address.positions;
  work.pass =
      act::of_option("pass", [&] { return quantity::read_count(row["pass"], act::kMostPasses); });
  work.target = target_in(row, address, work.pass, intake);
  if (const auto why = row["skip"]; !why.empty()) {
    work.skipped_why = act::of_option("skip", [&] { return record::read_label(why, "skip", 200); });
  }
  work.second_check = row.yes("check");
  if (work.second_check && record::is_skipped(work)) {
    throw act::OptionError("check", "a pass that was left out cannot be checked");
  }
  set_wrench(work, row, intake);
  if (const auto turned = row["turned"]; !turned.empty()) {
    work.turned = act::of_option("turned", [&] { return quantity::read_angle(turned); });
  }
  check_turned(work);
  if (work.second_check) {
    act::of_option("by", [&] {
      act::check_second_person(intake.progress(), work.joint, work.positions, intake.by(row));
    });
  }
  intake.add(row, work);
}

}  // namespace

const CsvTable& tightening_table() {
  static const CsvTable table{
      "tightenings",
      {"address", "pass", "asked", "wrench", "set", "unit", "extension", "wrench-length",
       "adapter-angle", "turned", "skip", "check", "by", "at"},
      {},
      {"address", "pass"},
      tightening_rows,
      take_tightening};
  return table;
}

}  // namespace tables
