#include "screen/status_answer.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <nlohmann/json.hpp>

#include "screen/audit_answer.h"
#include "screen/json_text.h"
#include "screen/table.h"
#include "words/joint_heading.h"

namespace screen {
namespace {

std::string joint_table(const progress::Reassembly& reassembly) {
  Table table;
  table.column("joint");
  for (const auto* title : {"of", "out", "final", "striped", "checked"}) {
    table.column(title, Table::Align::Right);
  }
  for (const auto& count : progress::joint_counts(reassembly)) {
    table.row({count.joint->joint->code, std::to_string(count.joint->joint->count),
               std::to_string(count.out), std::to_string(count.final_value),
               std::to_string(count.striped), std::to_string(count.checked)});
  }
  return table.text("  ");
}

std::string bag_table(const progress::Reassembly& reassembly) {
  Table table;
  table.column("bag");
  for (const auto* title : {"out", "back", "left"}) table.column(title, Table::Align::Right);
  const auto counts = progress::bag_counts(reassembly);
  if (counts.empty()) return {};
  for (const auto& count : counts) {
    table.row({count.bag, std::to_string(count.out), std::to_string(count.back),
               std::to_string(count.out - count.back)});
  }
  return '\n' + table.text("  ");
}

std::vector<std::string> ids_in_the_way(const audit::Audit& audit) {
  std::vector<std::string> ids;
  for (const auto* deviation : audit::in_the_way(audit)) ids.push_back(deviation->id);
  return ids;
}

}  // namespace

std::string status_text(const JobStatus& status, const words::Page& page) {
  std::string text;
  if (!status.has_joints()) {
    text = words::strong("Not begun: nothing entered yet", page) + '\n' + words::no_joints(page);
  } else if (status.is_finished()) {
    text = words::strong("Finished: nothing is open", page) + '\n';
  } else {
    const auto to_settle = ids_in_the_way(status.audit);
    std::string points;
    if (!status.open.empty()) points = words::counted(status.open.size(), "point") + " open";
    if (!to_settle.empty()) {
      points += (points.empty() ? "" : ", ") + words::counted(to_settle.size(), "deviation") +
                " of the audit";
    }
    const auto to_do = status.audit.to_do.size();
    if (to_do > 0) {
      points += fmt::format("{}{} decided and not done", points.empty() ? "" : ", ",
                            words::counted(to_do, "thing"));
    }
    text = words::strong("Not finished: " + points, page) + '\n';
    if (!to_settle.empty()) {
      text += words::wrapped(fmt::format("to settle: {}", fmt::join(to_settle, ", ")), page.width,
                             "  - ", "    ");
    }
    for (const auto& work : status.audit.to_do) {
      text += words::wrapped(
          fmt::format("{}: {}", work.decision->content.deviation, progress::in_words(work)),
          page.width, "  - ", "    ");
    }
    for (const auto& point : status.open)
      text += words::wrapped(point.says, page.width, "  - ", "    ");
  }
  return text + '\n' + joint_table(status.reassembly) + bag_table(status.reassembly);
}

std::string status_json(const JobStatus& status) {
  const auto& reassembly = status.reassembly;
  auto points = nlohmann::ordered_json::array();
  for (const auto& point : status.open) {
    points.push_back({{"joint", point.joint.empty() ? nlohmann::ordered_json(nullptr)
                                                    : nlohmann::ordered_json(point.joint)},
                      {"says", point.says}});
  }
  auto joints = nlohmann::ordered_json::array();
  for (const auto& count : progress::joint_counts(reassembly)) {
    joints.push_back({{"joint", count.joint->joint->code},
                      {"count", count.joint->joint->count},
                      {"out", count.out},
                      {"final_value", count.final_value},
                      {"second_check", count.checked},
                      {"striped", count.striped}});
  }
  auto bags = nlohmann::ordered_json::array();
  for (const auto& count : progress::bag_counts(reassembly)) {
    bags.push_back({{"bag", count.bag},
                    {"out", count.out},
                    {"back", count.back},
                    {"left", count.out - count.back}});
  }
  return json_text({{"finished", status.is_finished()},
                    {"to_settle", ids_in_the_way(status.audit)},
                    {"to_do", to_do_json(status.audit)},
                    {"open", std::move(points)},
                    {"joints", std::move(joints)},
                    {"bags", std::move(bags)}});
}

}  // namespace screen
