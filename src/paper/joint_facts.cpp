#include "paper/joint_facts.h"

#include "finding/specification_group.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "words/joint_heading.h"

namespace paper {
namespace {

constexpr std::size_t kLongCode = 9;     // letters; longer codes are set smaller
constexpr std::size_t kLongTorque = 42;  // letters that fit beside a map in two lines
constexpr double kHighMap = 48.0;        // millimetres; higher than the facts of most joints

// What is asked for, as its source has it: the torque it ends in, else the whole procedure.
std::string torque_text(const finding::JointState& joint,
                        const finding::SpecificationGroup& group) {
  if (group.specified == nullptr) {
    const auto provisional = finding::provisional_torque(joint);
    return provisional ? quantity::write_rounded(*provisional, joint.unit) + ", provisional"
                       : "no torque known";
  }
  const auto target = record::final_torque(group.specified->procedure);
  return target ? record::write_exact(*target) : record::write_exact(group.specified->procedure);
}

void write_torques(Markup& page, const finding::JointState& joint) {
  const auto groups = finding::specification_groups(joint);
  for (const auto& group : groups) {
    const auto text = torque_text(joint, group);
    page.open("p", {{"class", text.size() > kLongTorque ? "torque long" : "torque"}}).text(text);
    if (groups.size() > 1) {
      page.text(" ").element("span", {{"class", "at"}},
                             "at " + record::write_positions(group.positions));
    }
    page.close();
  }
}

}  // namespace

void write_joint_top(Markup& page, const finding::JointState& joint, JointTop top) {
  const auto& what = *joint.joint;
  top.map.room = map_room(what, !top.map.order.empty());
  const bool beside = top.map.room.width == kMapBeside.width;
  const bool why_beside =
      beside && map_plan(what, !top.map.order.empty(), top.map.room).height > kHighMap;
  page.open("div", {{"class", beside ? "top" : "top wide-map"}});
  page.open("div", {{"class", "facts"}});
  page.open("h2");
  page.element("span", {{"class", what.code.size() > kLongCode ? "code long" : "code"}}, what.code);
  if (!top.turn.empty()) page.text(" ").element("span", {{"class", "turn-of"}}, top.turn);
  page.close();
  page.element("p", {{"class", "holds"}}, what.holds);
  write_torques(page, joint);
  page.element("p", words::kind_text(what));
  if (const auto parts = words::parts_text(what); !parts.empty()) page.element("p", parts);
  for (const auto& line : words::specification_lines(joint)) page.element("p", line);
  if (why_beside && !top.why.empty()) page.element("p", top.why);
  if (top.datum_blank) {
    for (const auto* what_is_asked : {"datum is at", "as you face it from"}) {
      page.open("p", {{"class", "datum"}}).text(what_is_asked).text(" ");
      page.element("span", {{"class", "blank long"}}, "").close();
    }
  }
  page.close();
  draw_map(page, what, top.map);
  page.close();
  if (!why_beside && !top.why.empty()) page.element("p", {{"class", "why"}}, top.why);
}

}  // namespace paper
