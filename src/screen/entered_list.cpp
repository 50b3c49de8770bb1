#include "screen/entered_list.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <span>

#include "quantity/number_text.h"
#include "record/address.h"
#include "screen/cut_list.h"
#include "screen/json_text.h"
#include "screen/table.h"
#include "words/joint_heading.h"

namespace screen {
namespace {

constexpr std::size_t kMostEntered = 20;

// One of each name, in the order in which they were first entered.
std::vector<const record::Wrench*> wrenches_on(const record::Job& job, record::Day day) {
  std::vector<const record::Wrench*> wrenches;
  for (const auto& entry : job.wrenches) {
    const auto* wrench = record::wrench_on(job, entry.content.name, day);
    if (std::ranges::find(wrenches, wrench) == wrenches.end()) wrenches.push_back(wrench);
  }
  return wrenches;
}

std::string calibration_text(const record::Wrench& wrench, record::Day day) {
  const auto until = record::calibration_ends(wrench);
  if (!until) return "not on record";
  return fmt::format("{} {}", *until < day ? "RAN OUT" : "until", record::write_day(*until));
}

std::size_t out_of(const finding::JointState& joint) {
  return static_cast<std::size_t>(std::ranges::count_if(
      joint.positions, [](const auto& position) { return position.removal != nullptr; }));
}

std::size_t tested_of(const finding::JointState& joint) {
  return static_cast<std::size_t>(std::ranges::count_if(
      joint.positions, [](const auto& position) { return position.finding() != nullptr; }));
}

}  // namespace

std::string wrench_list_text(const record::Job& job, record::Day day, bool whole,
                             const words::Page& page) {
  if (job.wrenches.empty()) {
    return words::wrapped(
        "no wrench in this logbook yet; \"boltwitness wrench --help\" tells how to enter one",
        page.width, "", "  ");
  }
  Table table;
  for (const auto* title : {"wrench", "scale", "graduation"}) table.column(title);
  table.column("±", Table::Align::Right);
  for (const auto* title : {"calibration", "serial"}) table.column(title);
  const auto wrenches = wrenches_on(job, day);
  const auto shown = whole ? wrenches.size() : shown_of(wrenches.size(), kMostEntered);
  for (const auto* wrench : std::span(wrenches).first(shown)) {
    table.row({wrench->name, record::scale_text(*wrench), record::graduation_text(*wrench),
               quantity::write_exact(record::permissible_deviation(*wrench)),
               calibration_text(*wrench, day), wrench->serial.empty() ? "-" : wrench->serial});
  }
  return table.fitted("", page.width) + and_more(wrenches.size() - shown, "wrench --whole", page);
}

std::string wrench_list_json(const record::Job& job, record::Day day) {
  auto rows = nlohmann::ordered_json::array();
  for (const auto* wrench : wrenches_on(job, day)) {
    const auto until = record::calibration_ends(*wrench);
    nlohmann::ordered_json row = {
        {"name", wrench->name},
        {"kind", record::word_of(wrench->kind)},
        {"scale", record::scale_text(*wrench)},
        {"graduation", record::graduation_text(*wrench)},
        {"deviation_percent", record::permissible_deviation(*wrench).in_percent()},
        {"serial", wrench->serial},
        {"calibrated_until", nullptr},
        {"in_calibration", nullptr}};
    if (until) {
      row["calibrated_until"] = record::write_day(*until);
      row["in_calibration"] = *until >= day;
    }
    rows.push_back(std::move(row));
  }
  return json_text(kWrenchesFormat, {{"wrenches", std::move(rows)}});
}

std::string joint_list_text(const finding::Survey& survey, bool whole, const words::Page& page) {
  if (survey.joints.empty()) return words::no_joints(page);
  const auto shown = whole ? survey.joints.size() : shown_of(survey.joints.size(), kMostEntered);
  // What is held takes what the other columns leave of the line.
  const auto table_of = [&](std::size_t room) {
    Table table;
    for (const auto* title : {"joint", "fasteners"}) table.column(title);
    for (const auto* title : {"out", "tested"}) table.column(title, Table::Align::Right);
    table.column("holds");
    for (const auto& joint : std::span(survey.joints).first(shown)) {
      table.row({joint.joint->code, words::fasteners_text(*joint.joint),
                 std::to_string(out_of(joint)), std::to_string(tested_of(joint)),
                 room == 0 ? std::string() : words::shortened(joint.joint->holds, room)});
    }
    return table;
  };
  constexpr std::size_t kTitle = 5;
  constexpr std::size_t kLeastForHolds = 12;
  const auto taken = table_of(0).width() - kTitle;
  const auto room = page.width > taken + kLeastForHolds ? page.width - taken : kLeastForHolds;
  return table_of(room).fitted("", page.width) +
         and_more(survey.joints.size() - shown, "show --whole", page);
}

std::string joint_list_json(const finding::Survey& survey) {
  auto rows = nlohmann::ordered_json::array();
  for (const auto& joint : survey.joints) {
    rows.push_back({{"joint", joint.joint->code},
                    {"holds", joint.joint->holds},
                    {"fasteners", words::fastener_text(*joint.joint)},
                    {"count", joint.joint->count},
                    {"out", out_of(joint)},
                    {"tested", tested_of(joint)}});
  }
  return json_text(kJointsFormat, {{"joints", std::move(rows)}});
}

}  // namespace screen
