#include "words/joint_heading.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "finding/specification_group.h"
#include "quantity/length_text.h"
#include "quantity/number_text.h"
#include "record/address.h"

namespace words {
namespace {

// "(72 to 88 N·m, tolerance assumed)"; empty where the procedure says its limits itself.
std::string limits_text(const record::ToleranceWindow& window, quantity::TorqueUnit unit) {
  if (!window.low || !window.high) return {};
  return fmt::format(" ({} to {}{})", quantity::write_rounded(quantity::in_unit(*window.low, unit)),
                     quantity::write_rounded(*window.high, unit),
                     window.assumed ? ", tolerance assumed" : "");
}

// What is specified for one group of positions; `at` names them, " at 1-4", where they are not all.
void add_lines(const finding::JointState& joint, const finding::SpecificationGroup& group,
               const std::string& at, std::vector<std::string>& lines) {
  const auto* specified = group.specified;
  if (specified == nullptr) {
    const auto provisional = finding::provisional_torque(joint);
    lines.push_back(provisional ? fmt::format("no specification{}; provisional, from finding: {}",
                                              at, side_by_side(*provisional, joint.unit))
                                : "no specification" + at);
    return;
  }
  std::string line = fmt::format("specified{}{} {}", at, at.empty() ? "" : ":",
                                 record::write_exact(specified->procedure));
  if (group.window) line += limits_text(*group.window, joint.unit);
  line += fmt::format(", {}", fastener::name_of(specified->condition));
  line += specified->source.empty() ? "; no source" : "; " + specified->source;
  lines.push_back(std::move(line));
  if (group.window && group.window->nominal) {
    lines.push_back(side_by_side(*group.window->nominal, joint.unit));
  }
}

// "struck in line 7 by DV, worked on by RK"; of one that nobody struck, nothing.
std::string kept_text(const record::Apart::Kept* kept) {
  if (kept == nullptr) return {};
  std::vector<std::string> strikes;
  for (const auto& strike : kept->struck_by) {
    strikes.push_back(fmt::format("in line {} by {}", strike.line, strike.by));
  }
  std::vector<std::string> people;
  for (const auto& line : kept->used_in) {
    if (std::ranges::find(people, line.by) == people.end()) people.push_back(line.by);
  }
  return fmt::format("DISPUTED: struck {}, worked on by {}; it counts until that is settled",
                     fmt::join(strikes, " and "), fmt::join(people, " and "));
}

std::string heading(const finding::JointState& joint, const std::string& opening,
                    const std::vector<std::string>& specifications, const Page& page) {
  const auto& what = *joint.joint;
  std::string text = strong(opening, page);
  text += wrapped(fmt::format("{}; {}", what.holds, kind_text(what)),
                  page.width - display_width(opening), "  ", "  ");
  if (auto kept = kept_text(joint.kept); !kept.empty()) {
    text += wrapped(kept, page.width, "  ", "    ");
  }
  for (const auto& line : specifications) text += wrapped(line, page.width, "  ", "    ");
  return text;
}

}  // namespace

std::string no_joints(const Page& page) {
  return wrapped(
      "no joint in this logbook yet; \"boltwitness joint --help\" tells how to enter one",
      page.width, "", "  ");
}

std::string fastener_text(const record::Joint& joint) {
  return fmt::format("{}{}, {}", joint.size, joint.length ? " x " + record::length_text(joint) : "",
                     joint.grade);
}

std::string fasteners_text(const record::Joint& joint) {
  return fmt::format("{} x {}", joint.count, fastener_text(joint));
}

std::string parts_text(const record::Joint& joint) {
  std::string text;
  if (!joint.into.empty()) {
    text = "into " + joint.into;
    if (joint.engaged) text += fmt::format(", {} engaged", record::engaged_text(joint));
  }
  if (!joint.seat.empty()) {
    text += fmt::format("{}head on {}", text.empty() ? "" : "; ", joint.seat);
    if (joint.face) text += fmt::format(", {} across its face", record::face_text(joint));
  }
  return text;
}

std::string side_by_side(quantity::Torque torque, quantity::TorqueUnit first) {
  std::string text = quantity::write_rounded(torque, first);
  for (const auto unit : quantity::kSideBySideUnits) {
    if (unit != first) text += " = " + quantity::write_rounded(torque, unit);
  }
  return text;
}

std::string kind_text(const record::Joint& joint) {
  return fmt::format("{}{}{}{}", fasteners_text(joint), joint.one_time ? ", one-time" : "",
                     joint.critical ? ", critical" : "",
                     joint.live_load ? ", holds a live load" : "");
}

std::vector<std::string> specification_lines(const finding::JointState& joint,
                                             std::optional<int> position) {
  std::vector<std::string> lines;
  const auto groups = finding::specification_groups(joint);
  for (const auto& group : groups) {
    if (position && !std::ranges::binary_search(group.positions, *position)) continue;
    const auto at =
        groups.size() == 1 ? std::string() : " at " + record::write_positions(group.positions);
    add_lines(joint, group, at, lines);
  }
  return lines;
}

std::string joint_heading(const finding::JointState& joint, const Page& page,
                          std::string_view number) {
  return heading(joint, std::string(number) + joint.joint->code, specification_lines(joint), page);
}

std::string position_heading(const finding::JointState& joint, int position, const Page& page) {
  return heading(joint, joint.joint->code, specification_lines(joint, position), page);
}

}  // namespace words
