#include "screen/status_answer.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <span>

#include "progress/due_rechecks.h"
#include "screen/audit_answer.h"
#include "screen/cut_list.h"
#include "screen/json_text.h"
#include "screen/table.h"
#include "words/deviation_in_words.h"
#include "words/next_step.h"
#include "words/recheck_in_words.h"

namespace screen {
namespace {

constexpr std::size_t kMostOpenPoints = 8;
constexpr std::size_t kMostJointRows = 40;

std::string more_than(std::size_t shown, std::size_t of, const words::Page& page) {
  return and_more(of - shown, "status --whole", page, "  ");
}

std::string of_all(int count, int of) { return of == 0 ? "-" : fmt::format("{} of {}", count, of); }

std::vector<std::string> joint_row(const progress::JointCount& count) {
  const auto& joint = *count.joint->joint;
  return {joint.code,
          std::to_string(joint.count),
          count.found_empty == 0 ? std::to_string(count.out)
                                 : fmt::format("{} + {} empty", count.out, count.found_empty),
          of_all(count.passes, count.passes_planned),
          count.planned == 0 ? "-" : std::to_string(count.striped),
          joint.critical ? std::to_string(count.checked) : "-",
          count.bags.empty() ? "-" : fmt::format("{}", fmt::join(count.bags, ", "))};
}

std::string joint_table(const progress::Reassembly& reassembly, bool whole,
                        const words::Page& page) {
  Table table;
  table.column("joint");
  for (const auto* title : {"of", "out", "passes", "striped", "second"}) {
    table.column(title, Table::Align::Right);
  }
  table.column("bag");
  const auto counts = progress::joint_counts(reassembly);
  const auto shown = whole ? counts.size() : shown_of(counts.size(), kMostJointRows);
  for (const auto& count : std::span(counts).first(shown)) table.row(joint_row(count));
  return table.text("  ") + more_than(shown, counts.size(), page);
}

std::string counted_passes(std::size_t count) {
  return count == 1 ? "1 pass open" : fmt::format("{} passes open", count);
}

std::string counted_kind(progress::OpenKind kind, std::size_t count) {
  using progress::OpenKind;
  switch (kind) {
    case OpenKind::HoldPoint:
      return words::counted(count, "hold point") + " shut";
    case OpenKind::TestUnderWay:
      return words::counted(count, "test") + " under way";
    case OpenKind::NewFastener:
      return words::counted(count, "joint") + " waiting for new fasteners";
    case OpenKind::OldIn:
      return words::counted(count, "joint") + " with the old fasteners in";
    case OpenKind::Spent:
      return words::counted(count, "joint") + " with spent fasteners in";
    case OpenKind::StripeTurned:
      return words::counted(count, "joint") + " with a turned stripe";
    case OpenKind::NotTold:
      return words::counted(count, "look") + " not told";
    case OpenKind::Pass:
      return counted_passes(count);
    case OpenKind::SecondPerson:
      return words::counted(count, "joint") + " without a second person";
    case OpenKind::Stripe:
      return words::counted(count, "joint") + " without final stripes";
    case OpenKind::CounterReading:
      return words::counted(count, "counter reading") + " missing";
    case OpenKind::ItemBeforeJoint:
      return words::counted(count, "item") + " to go back before a joint";
    case OpenKind::Item:
      return words::counted(count, "item") + " not back";
    case OpenKind::Fluid:
      break;
  }
  return words::counted(count, "fluid") + " not back";
}

// "2 holds open, 1 check to settle, 1 hold point shut, 3 passes open".
std::string what_is_open(const JobStatus& status) {
  auto parts = words::to_settle_in_words(status.audit);
  const auto to_do = status.audit.to_do.size();
  if (to_do > 0) parts.push_back(fmt::format("{} decided and not done", to_do));
  std::map<progress::OpenKind, std::size_t> kinds;
  for (const auto& point : status.open) ++kinds[point.kind];
  for (const auto& [kind, count] : kinds) parts.push_back(counted_kind(kind, count));
  return fmt::format("{}", fmt::join(parts, ", "));
}

std::vector<std::string> ids_of(const std::vector<const audit::Deviation*>& deviations) {
  std::vector<std::string> ids;
  ids.reserve(deviations.size());
  for (const auto* deviation : deviations) ids.push_back(deviation->id);
  return ids;
}

// Everything that is open, what is to be settled first.
std::vector<std::string> points_of(const JobStatus& status) {
  std::vector<std::string> points;
  for (const auto& id : ids_of(audit::in_the_way(status.audit)))
    points.push_back("to settle: " + id);
  for (const auto& work : status.audit.to_do) {
    points.push_back(
        fmt::format("{}: {}", work.decision->content.deviation, progress::in_words(work)));
  }
  for (const auto& point : status.open) points.push_back(point.says);
  return points;
}

// The look at final stripes that comes first; empty where none is asked for.
std::string next_look(const JobStatus& status) {
  const auto& reassembly = status.reassembly;
  const auto due = progress::due_rechecks(reassembly.job, reassembly.survey, reassembly.progress,
                                          status.now, std::nullopt);
  return due.empty() ? std::string() : words::due_in_words(due.front(), status.now);
}

}  // namespace

std::string status_in_short(const JobStatus& status, const words::Page& page) {
  const auto line = [&](const std::string& says) {
    return words::wrapped(words::strong(says, page), page.width, "", "  ");
  };
  const auto looks = audit::looks_due(status.audit).size();
  std::string text = !status.has_joints() ? line("Not begun: nothing entered yet")
                     : status.is_finished()
                         ? line("Finished: nothing is open" +
                                (looks == 0 ? std::string()
                                            : ", " + words::counted(looks, "look") + " due again") +
                                words::left_to_read(status.audit))
                         : line("Not finished: " + what_is_open(status));
  const auto next =
      words::next_step(status.reassembly, status.open, status.audit, status.now, status.circle);
  if (!next.command.empty()) {
    text += words::wrapped(fmt::format("next: boltwitness {}", next.command), page.width, "", "  ");
  }
  if (!next.why.empty()) text += words::wrapped(next.why, page.width, "      ", "      ");
  if (next.command.empty() && status.is_finished()) {
    if (const auto look = next_look(status); !look.empty()) {
      text += words::wrapped("next look: " + look, page.width, "", "  ");
    }
  }
  return text;
}

std::string status_text(const JobStatus& status, bool whole, const words::Page& page) {
  std::string text = status_in_short(status, page);
  const auto points = points_of(status);
  const auto shown = whole ? points.size() : shown_of(points.size(), kMostOpenPoints);
  if (points.size() > 1) {
    for (const auto& point : std::span(points).first(shown)) {
      text += words::wrapped(point, page.width, "  - ", "    ");
    }
    text += more_than(shown, points.size(), page);
  }
  text += '\n' + words::wrapped(status.reassembly.job.start.machine, page.width, "", "  ");
  return text + (status.has_joints() ? joint_table(status.reassembly, whole, page) : "");
}

std::string status_json(const JobStatus& status) {
  const auto& reassembly = status.reassembly;
  auto points = nlohmann::ordered_json::array();
  for (const auto& point : status.open) {
    points.push_back({{"joint", point.joint.empty() ? nlohmann::ordered_json(nullptr)
                                                    : nlohmann::ordered_json(point.joint)},
                      {"says", point.says},
                      {"command", point.command}});
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
  const auto next =
      words::next_step(reassembly, status.open, status.audit, status.now, status.circle);
  return json_text({{"finished", status.is_finished()},
                    {"next", {{"command", next.command}, {"why", next.why}}},
                    {"to_settle", ids_of(audit::in_the_way(status.audit))},
                    {"looks_due", ids_of(audit::looks_due(status.audit))},
                    {"to_do", to_do_json(status.audit)},
                    {"open", std::move(points)},
                    {"joints", std::move(joints)},
                    {"bags", std::move(bags)}});
}

}  // namespace screen
