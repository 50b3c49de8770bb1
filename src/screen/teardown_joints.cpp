#include "screen/teardown_joints.h"

#include <fmt/format.h>

#include <algorithm>

#include "finding/specification_group.h"
#include "record/address.h"
#include "screen/cut_list.h"
#include "screen/joint_drawing.h"
#include "words/joint_heading.h"

namespace screen {
namespace {

constexpr std::size_t kJointsShown = 12;

}  // namespace

std::string joints_to_open(const std::vector<JointToOpen>& joints, const words::Page& page) {
  std::vector<const JointToOpen*> open;
  std::size_t code_width = 0;
  std::size_t count_width = 0;
  const auto count_text = [](const JointToOpen& each) {
    return fmt::format("{} of {} done", each.done, each.joint->count);
  };
  for (const auto& each : joints) {
    if (each.done < each.joint->count) open.push_back(&each);
  }
  const auto shown = shown_of(open.size(), kJointsShown);
  for (std::size_t i = 0; i < shown; ++i) {
    code_width = std::max(code_width, words::display_width(open[i]->joint->code));
    count_width = std::max(count_width, count_text(*open[i]).size());
  }
  std::string text;
  for (std::size_t i = 0; i < shown; ++i) {
    const auto front =
        fmt::format("  {}  {}  ", words::padded_right(open[i]->joint->code, code_width),
                    words::padded_left(count_text(*open[i]), count_width));
    text += words::wrapped(
        fmt::format("{}, {}", open[i]->joint->holds, words::fasteners_text(*open[i]->joint)),
        page.width, front, std::string(words::display_width(front), ' '));
  }
  text += and_more(open.size() - shown, "show --whole", page, "  ");
  if (const auto done = joints.size() - open.size(); done > 0) {
    text += fmt::format("  {} done\n", words::counted(done, "joint"));
  }
  return text;
}

std::string joint_in_a_line(const finding::JointState& joint) {
  const auto& what = *joint.joint;
  std::string text = fmt::format("{} {}: {}", what.code, what.holds, words::kind_text(what));
  const auto groups = finding::specification_groups(joint);
  for (const auto& group : groups) {
    const auto at = groups.size() == 1
                        ? std::string()
                        : fmt::format(" at {}:", record::write_positions(group.positions));
    if (group.specified == nullptr) {
      text += "; no specification" + at;
      continue;
    }
    text += fmt::format("; specified{} {}, {}", at, record::write_exact(group.specified->procedure),
                        fastener::name_of(group.specified->condition));
  }
  return text;
}

std::string joint_opening(const finding::JointState& joint, const words::Page& page) {
  return words::wrapped(joint_in_a_line(joint), page.width, "", "  ") +
         joint_drawing(joint.joint->layout, std::string(joint.positions.size(), ' '), page);
}

}  // namespace screen
