#include <fmt/format.h>

#include <optional>
#include <unordered_map>
#include <unordered_set>

#include "act/joint_entry.h"
#include "act/lookup.h"
#include "act/option_error.h"
#include "finding/plausibility.h"
#include "quantity/ascii.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "tables/csv_table.h"
#include "tables/stamp_cells.h"

namespace tables {
namespace {

// A text that joint --final-when gives back: it takes a "when" before it away.
std::string final_when_cell(const std::string& text) {
  return quantity::starts_with_in_any_case(text, "when ") ? "when " + text : text;
}

std::string rechecks_cell(const record::Joint& joint) {
  std::vector<std::string> intervals;
  for (const auto& interval : joint.rechecks) intervals.push_back(record::write_exact(interval));
  return listed(intervals);
}

// Has to be said where the specification is beyond what its fastener can carry.
bool needs_really(const record::Specified& specified, const record::Joint& joint) {
  const auto found = finding::implausible(specified, joint);
  return found && finding::is_refused(found->plausibility);
}

// The cells spec, source, condition and really.
void add_specification(std::vector<std::string>& row, const record::Specified* specified,
                       const record::Joint* joint) {
  if (specified == nullptr) {
    row.insert(row.end(), 4, "");
    return;
  }
  row.push_back(specified->typed);
  row.push_back(specified->source);
  row.emplace_back(fastener::name_of(specified->condition));
  row.push_back(yes_or_nothing(joint != nullptr && needs_really(*specified, *joint)));
}

std::vector<std::string> joint_row(const record::Entry<record::Joint>& entry,
                                   const record::Specified* specified) {
  const auto& joint = entry.content;
  std::vector<std::string> row{joint.code,
                               joint.holds,
                               joint.size,
                               record::length_text(joint),
                               joint.grade,
                               std::to_string(joint.count),
                               record::write_exact(joint.layout),
                               yes_or_nothing(joint.one_time),
                               yes_or_nothing(joint.critical),
                               yes_or_nothing(joint.live_load),
                               listed(joint.after),
                               listed(joint.covers),
                               yes_or_nothing(joint.bench),
                               final_when_cell(joint.final_when),
                               joint.order,
                               joint.passes,
                               rechecks_cell(joint),
                               joint.into,
                               record::engaged_text(joint),
                               joint.seat,
                               record::face_text(joint)};
  add_specification(row, specified, &joint);
  add_stamp_cells(row, entry.stamp);
  return row;
}

std::vector<std::string> specification_row(const record::Entry<record::Specified>& entry,
                                           const record::Joint* joint) {
  constexpr std::size_t kOfTheJointAlone = 20;
  const auto& specified = entry.content;
  std::vector<std::string> row{
      specified.positions.empty()
          ? specified.joint
          : fmt::format("{}/{}", specified.joint, record::write_positions(specified.positions))};
  row.insert(row.end(), kOfTheJointAlone, "");
  add_specification(row, &specified, joint);
  add_stamp_cells(row, entry.stamp);
  return row;
}

// The specification that each joint was entered with, in one command: the first for the whole of
// it, where the same person did both at the same time. It stands in the row of its joint; every
// other one has a row of its own, as it had a command of its own.
std::unordered_map<const record::Joint*, const record::Specified*> entered_together(
    const record::Job& job) {
  std::unordered_map<std::string, const record::Entry<record::Specified>*> first;
  for (const auto& entry : job.specifications) {
    if (!entry.content.positions.empty()) continue;
    first.emplace(record::folded_code(entry.content.joint), &entry);
  }
  std::unordered_map<const record::Joint*, const record::Specified*> together;
  for (const auto& joint : job.joints) {
    const auto found = first.find(record::folded_code(joint.content.code));
    if (found == first.end()) continue;
    const auto& stamp = found->second->stamp;
    if (stamp.by == joint.stamp.by && stamp.done_at == joint.stamp.done_at) {
      together.emplace(&joint.content, &found->second->content);
    }
  }
  return together;
}

std::vector<std::vector<std::string>> joint_rows(const record::Job& job) {
  const auto together = entered_together(job);
  std::vector<std::vector<std::string>> rows;
  std::unordered_map<std::string, const record::Joint*> joints;
  std::unordered_set<const record::Specified*> told;
  for (const auto& joint : job.joints) {
    joints[record::folded_code(joint.content.code)] = &joint.content;
    const auto found = together.find(&joint.content);
    const auto* specified = found == together.end() ? nullptr : found->second;
    rows.push_back(joint_row(joint, specified));
    told.insert(specified);
  }
  for (const auto& entry : job.specifications) {
    if (told.contains(&entry.content)) continue;
    const auto joint = joints.find(record::folded_code(entry.content.joint));
    rows.push_back(specification_row(entry, joint == joints.end() ? nullptr : joint->second));
  }
  return rows;
}

act::JointWords words_of(const TableRow& row) {
  act::JointWords options;
  options.code = row["joint"];
  options.holds = row["holds"];
  options.size = row["size"];
  options.length = row.with_unit("length", "length-unit");
  options.grade = row["grade"];
  options.into = row["into"];
  options.engaged = row.with_unit("engaged", "length-unit");
  options.seat = row["seat"];
  options.face = row.with_unit("face", "length-unit");
  options.count = row["count"];
  options.layout = row["layout"];
  options.one_time = row.yes("one-time");
  options.critical = row.yes("critical");
  options.live_load = row.yes("live-load");
  options.after = row.list("after");
  options.covers = row.list("covers");
  options.bench = row.yes("bench");
  options.final_when = row["final-when"];
  options.order = row["order"];
  options.passes = row["passes"];
  options.rechecks = row.list("recheck");
  options.spec = row.with_unit("spec", "unit");
  options.source = row["source"];
  options.condition = row["condition"];
  options.really = row.yes("really");
  return options;
}

void take_joint(const TableRow& row, Intake& intake) {
  const auto words = words_of(row);
  const auto address = act::of_option("joint", [&] { return record::read_address(words.code); });
  const auto* same = intake.joint(address.joint);
  const bool is_unknown = same == nullptr && !address.positions.empty();
  act::KnownJoints known{
      .same = same,
      .codes = intake.joint_codes(),
      .to_suggest = is_unknown ? intake.codes_to_suggest() : intake.joint_codes().all()};
  if (known.same != nullptr) {
    known.what_to_do = fmt::format(
        "{0} is entered already; leave this row out, or keep of it only what is specified for {0}; "
        "to correct what is entered: joint {0} --replace LINE --why TEXT",
        known.same->code);
  }
  auto checked = act::check_joint(words, address, known);
  intake.remark(std::move(checked.remarks));
  if (checked.joint) intake.add(row, *checked.joint);
  if (checked.specified) intake.add(row, *checked.specified);
}

}  // namespace

const CsvTable& joint_table() {
  static const CsvTable table{
      "joints",
      {"joint",    "holds",    "size",      "length", "grade",   "count", "layout",
       "one-time", "critical", "live-load", "after",  "covers",  "bench", "final-when",
       "order",    "passes",   "recheck",   "into",   "engaged", "seat",  "face",
       "spec",     "source",   "condition", "really", "by",      "at"},
      {"unit", "length-unit"},
      {"joint"},
      {"length", "recheck", "engaged", "face", "spec"},
      joint_rows,
      take_joint};
  return table;
}

}  // namespace tables
