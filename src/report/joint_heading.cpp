#include "report/joint_heading.h"

#include <fmt/format.h>

#include "finding/specification_group.h"
#include "quantity/length_text.h"
#include "quantity/number_text.h"
#include "record/address.h"

namespace report {
namespace {

// "(72 to 88 N·m, tolerance assumed)"; empty where the procedure says its limits itself.
std::string limits_text(const record::ToleranceWindow& window, quantity::TorqueUnit unit) {
  if (!window.low || !window.high) return {};
  return fmt::format(" ({} to {}{})", quantity::write_rounded(quantity::in_unit(*window.low, unit)),
                     quantity::write_rounded(*window.high, unit),
                     window.assumed ? ", tolerance assumed" : "");
}

// The lines about one group of positions; `at` names them, " at 1-4", where they are not all.
std::string specification_text(const finding::JointState& joint,
                               const finding::SpecificationGroup& group, const std::string& at,
                               const record::LogbookStart& start, const Page& page) {
  const auto* specified = group.specified;
  if (specified == nullptr) {
    const auto provisional = finding::provisional_torque(joint);
    return wrapped(provisional ? fmt::format("no specification{}; provisional, from finding: {}",
                                             at, side_by_side(*provisional, start.unit))
                               : "no specification" + at,
                   page.width, "  ", "    ");
  }
  std::string line = fmt::format("specified{}{} {}", at, at.empty() ? "" : ":",
                                 record::write_exact(specified->procedure));
  if (group.window) line += limits_text(*group.window, start.unit);
  line += fmt::format(", {}", fastener::name_of(specified->condition));
  line += specified->source.empty() ? "; no source" : "; " + specified->source;
  std::string text = wrapped(line, page.width, "  ", "    ");
  if (group.window && group.window->nominal) {
    text += fmt::format("  {}\n", side_by_side(*group.window->nominal, start.unit));
  }
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

std::string side_by_side(quantity::Torque torque, quantity::TorqueUnit first) {
  std::string text = quantity::write_rounded(torque, first);
  for (const auto unit : quantity::kSideBySideUnits) {
    if (unit != first) text += " = " + quantity::write_rounded(torque, unit);
  }
  return text;
}

std::string joint_heading(const finding::JointState& joint, const record::LogbookStart& start,
                          const Page& page, std::string_view number) {
  const auto& what = *joint.joint;
  const std::string opening = std::string(number) + what.code;
  std::string text = strong(opening, page);
  text += wrapped(fmt::format("{}; {}{}{}", what.holds, fasteners_text(what),
                              what.one_time ? ", one-time" : "", what.critical ? ", critical" : ""),
                  page.width - display_width(opening), "  ", "  ");
  const auto groups = finding::specification_groups(joint);
  for (const auto& group : groups) {
    const auto at =
        groups.size() == 1 ? std::string() : " at " + record::write_positions(group.positions);
    text += specification_text(joint, group, at, start, page);
  }
  return text;
}

}  // namespace report
