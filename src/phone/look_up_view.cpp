#include <algorithm>
#include <nlohmann/json.hpp>

#include "act/chosen_joints.h"
#include "act/lookup.h"
#include "act/outlook.h"
#include "failure/failure.h"
#include "paper/joint_map.h"
#include "paper/markup.h"
#include "phone/photograph_rows.h"
#include "phone/views.h"
#include "record/concerns.h"
#include "screen/history_answer.h"
#include "screen/position_page.h"
#include "words/deviation_in_words.h"
#include "words/found_value.h"
#include "words/joint_heading.h"
#include "words/verdict_text.h"

namespace phone {
namespace {

using nlohmann::ordered_json;

ordered_json found_at(const finding::JointState& joint, int position) {
  const auto* finding = joint.at(position).finding();
  if (finding == nullptr) return nullptr;
  ordered_json found = {{"says", words::verdict_text(joint, *finding)},
                        {"units", words::found_side_by_side(finding->torque, joint.unit)},
                        {"verdict", words::verdict_word(joint.at(position), *finding)}};
  return found;
}

}  // namespace

nlohmann::ordered_json look_up_view(const logbook::Logbook& logbook, record::Moment now,
                                    const Chosen& chosen) {
  const auto address = record::read_address(chosen_text(chosen, "at"));
  const act::Outlook outlook(logbook, now);
  const auto& joint = *act::chosen_joints(outlook.entered().survey, {address.joint}).front();
  if (!address.positions.empty()) act::check_positions(*joint.joint, address.positions);
  const auto& what = *joint.joint;
  const auto audit = audit::run_for_joint(outlook.subject(), what.code);
  const screen::JointPage page_of{outlook.entered().job,
                                  joint,
                                  audit,
                                  outlook.progress(),
                                  act::why_no_plan(outlook),
                                  act::joint_in_short(outlook, joint, audit)};
  paper::MapContent content;
  content.held = audit::positions_held(audit, what);
  paper::Markup map;
  paper::draw_map(map, what, content);
  ordered_json view = {
      {"joint", what.code},
      {"holds", what.holds},
      {"kind", words::kind_text(what)},
      {"in_short", page_of.in_short},
      {"map", map.take()},
      {"specified", words::specification_lines(joint)},
      {"positions", ordered_json::array()},
      {"chosen", address.positions},
      {"photographs", newest_first(screen::photographs_of(page_of, address.positions))},
      {"position", nullptr}};
  for (const auto& state : joint.positions) {
    view["positions"].push_back(
        {{"position", state.position}, {"found", found_at(joint, state.position)}});
  }
  if (address.positions.size() != 1) return view;
  const int position = address.positions.front();
  auto lines = logbook.history_of(address.joint);
  std::erase_if(lines, [&](const auto& line) { return !record::concerns(line.content, address); });
  ordered_json one = ordered_json::parse(screen::position_page_json(page_of, position, lines));
  one["specified"] = words::specification_lines(joint, position);
  one["found"] = found_at(joint, position);
  one["says"] = ordered_json::array();
  for (const auto* deviation : screen::deviations_of(page_of, position)) {
    one["says"].push_back(deviation->says);
  }
  view["position"] = std::move(one);
  return view;
}

}  // namespace phone
