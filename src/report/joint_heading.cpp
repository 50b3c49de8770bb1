#include "report/joint_heading.h"

#include <fmt/format.h>

#include "quantity/length_text.h"
#include "quantity/number_text.h"

namespace report {
namespace {

// "(72 to 88 N·m, tolerance assumed)"; empty where the procedure says its limits itself.
std::string limits_text(const record::ToleranceWindow& window, quantity::TorqueUnit unit) {
  if (!window.low || !window.high) return {};
  return fmt::format(" ({} to {}{})", quantity::write_rounded(quantity::in_unit(*window.low, unit)),
                     quantity::write_rounded(*window.high, unit),
                     window.assumed ? ", tolerance assumed" : "");
}

}  // namespace

std::string fastener_text(const record::Joint& joint) {
  return fmt::format("{}{}, {}", joint.size,
                     joint.length ? " x " + quantity::write_exact(*joint.length) : "", joint.grade);
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
  const auto* specified = joint.specified();
  if (specified == nullptr) {
    const auto provisional = finding::provisional_torque(joint);
    text += wrapped(provisional ? fmt::format("no specification; provisional, from finding: {}",
                                              side_by_side(*provisional, start.unit))
                                : "no specification",
                    page.width, "  ", "    ");
    return text;
  }
  std::string line = "specified " + record::write_exact(specified->procedure);
  if (joint.window) line += limits_text(*joint.window, start.unit);
  line += fmt::format(", {}", fastener::name_of(specified->condition));
  line += specified->source.empty() ? "; no source" : "; " + specified->source;
  text += wrapped(line, page.width, "  ", "    ");
  if (joint.window && joint.window->nominal) {
    text += fmt::format("  {}\n", side_by_side(*joint.window->nominal, start.unit));
  }
  return text;
}

}  // namespace report
