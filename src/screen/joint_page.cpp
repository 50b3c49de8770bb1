#include "screen/joint_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <span>

#include "quantity/number_text.h"
#include "record/address.h"
#include "record/concerns.h"
#include "screen/audit_answer.h"
#include "screen/compare_answer.h"
#include "screen/cut_list.h"
#include "screen/joint_drawing.h"
#include "screen/json_text.h"
#include "screen/table.h"
#include "screen/tolerance_strip.h"
#include "words/found_value.h"
#include "words/joint_bolt.h"
#include "words/joint_heading.h"
#include "words/pass_text.h"

namespace screen {
namespace {

using finding::JointState;
using finding::PositionState;
using nlohmann::ordered_json;
using Stands = progress::Step::Stands;

constexpr std::size_t kMostFoundRows = 20;
constexpr std::size_t kMostOfAudit = 10;
constexpr std::size_t kMostPhotographs = 5;

// ---- the map

constexpr char kOpenHold = '!';
constexpr char kOpenCheck = '?';
constexpr char kToDo = '>';
constexpr char kFinalValue = '=';

std::string marks_of(const JointPage& page_of) {
  std::string marks(page_of.joint.positions.size(), ' ');
  if (page_of.progress != nullptr) {
    for (const auto& position : page_of.joint.positions) {
      const auto at = static_cast<std::size_t>(position.position) - 1;
      const auto& progress = *page_of.progress;
      if (progress.has_final_value(page_of.joint.joint->code, position.position)) {
        marks[at] = kFinalValue;
      }
    }
  }
  for (const auto& work : page_of.audit.to_do) {
    if (!record::same_code(work.decision->content.joint, page_of.joint.joint->code)) continue;
    for (const int position : work.open) {
      const auto at = static_cast<std::size_t>(position) - 1;
      if (at < marks.size()) marks[at] = kToDo;
    }
  }
  for (const auto* deviation : deviations_of(page_of, std::nullopt)) {
    for (const int position : audit::positions_marked(*deviation, page_of.joint.joint->count)) {
      const auto at = static_cast<std::size_t>(position) - 1;
      if (at >= marks.size() || marks[at] == kOpenHold) continue;
      if (deviation->level == audit::Level::Hold) marks[at] = kOpenHold;
      if (deviation->level == audit::Level::Check && marks[at] != kToDo) marks[at] = kOpenCheck;
    }
  }
  return marks;
}

std::string drawing_text(const JointPage& page_of, const words::Page& page) {
  const auto marks = marks_of(page_of);
  std::string legend = record::write_exact(page_of.joint.joint->layout) + ", 1 at the datum";
  const auto tell = [&](char mark, std::string_view meaning) {
    if (marks.find(mark) != std::string::npos) legend += fmt::format("; {} {}", mark, meaning);
  };
  // The points of a free layout were typed once and are no use to read here.
  if (std::holds_alternative<record::FreeLayout>(page_of.joint.joint->layout)) {
    legend = "as measured, 1 at the datum";
  }
  tell(kOpenHold, "open hold");
  tell(kOpenCheck, "open check");
  tell(kToDo, "decided, not done");
  tell(kFinalValue, "at its final value");
  return joint_drawing(page_of.joint.joint->layout, marks, page) +
         words::wrapped(legend, page.width, "  ", "  ");
}

// ---- found against tolerance

std::string found_cell(const finding::FoundTorque& torque, quantity::TorqueUnit unit) {
  return torque.best ? words::found_words(torque, unit) : words::found_value(torque, unit);
}

// What stands beside the strip: number, torque, verdict, grade, and the blanks between.
constexpr std::size_t kBesideStrip = 40;
constexpr std::size_t kNarrowestStrip = 20;
constexpr std::size_t kWidestStrip = 40;

std::vector<const PositionState*> tested_in(const JointState& joint) {
  std::vector<const PositionState*> tested;
  for (const auto& position : joint.positions) {
    if (position.finding() != nullptr) tested.push_back(&position);
  }
  return tested;
}

// The positions of so many of them, those first that are not within.
std::set<int> first_to_see(std::vector<const PositionState*> tested, std::size_t most) {
  std::stable_partition(tested.begin(), tested.end(), [](const PositionState* position) {
    return position->finding()->verdict != finding::Verdict::Within;
  });
  std::set<int> first;
  for (const auto* position : std::span(tested).first(most)) first.insert(position->position);
  return first;
}

std::string whole_of(const JointPage& page_of) {
  return fmt::format("show {} --whole", page_of.joint.joint->code);
}

std::string found_table(const JointPage& page_of, const words::Page& page) {
  const auto unit = page_of.joint.unit;
  const std::size_t strip_width =
      std::clamp(page.width - std::min(page.width, kBesideStrip), kNarrowestStrip, kWidestStrip);
  Table table;
  table.column("", Table::Align::Right);
  table.column(std::string(quantity::name_of(unit)));
  table.column("| limits [x] found");
  table.column("verdict");
  std::vector<int> untested;
  const auto tested = tested_in(page_of.joint);
  const auto shown = page_of.whole ? tested.size() : shown_of(tested.size(), kMostFoundRows);
  const auto told = first_to_see(tested, shown);
  for (const auto& position : page_of.joint.positions) {
    const auto* finding = position.finding();
    if (finding == nullptr) {
      untested.push_back(position.position);
      continue;
    }
    if (!told.contains(position.position)) continue;
    table.row({fmt::format("{:02}", position.position), found_cell(finding->torque, unit),
               finding->window ? tolerance_strip(finding->torque, *finding->window, strip_width)
                               : "no limits",
               fmt::format("{} {}{}", finding::word_of(finding->verdict),
                           finding::letter_of(finding->graded.grade),
                           position.disputed_findings.empty() ? "" : " disputed")});
  }
  std::string text;
  if (!told.empty()) text += table.text("  ");
  text += and_more(tested.size() - shown, whole_of(page_of), page, "  ");
  if (!untested.empty()) {
    text += words::wrapped("not tested: " + record::write_positions(untested), page.width, "  ",
                           "    ");
  }
  return text;
}

// ---- how far it is back together

std::string out_line(const JointState& joint) {
  std::vector<int> out;
  for (const auto& position : joint.positions) {
    if (position.removal != nullptr) out.push_back(position.position);
  }
  if (out.empty()) return "nothing recorded as out";
  return out.size() == joint.positions.size() ? "all recorded as out"
                                              : "out: " + record::write_positions(out);
}

// What a pass asks for, and of which positions: those with a specification of their own may differ.
using Targets = std::vector<std::pair<std::string, std::vector<int>>>;

// "40 N·m"; "40 N·m at 1-4, 25 N·m at 5-6".
std::string targets_text(const Targets& targets) {
  if (targets.size() == 1) return targets.front().first;
  std::string text;
  for (const auto& [target, positions] : targets) {
    text += fmt::format("{}{} at {}", text.empty() ? "" : ", ", target,
                        record::write_positions(positions));
  }
  return text;
}

std::string progress_text(const JointPage& page_of, const words::Page& page) {
  const auto line = [&](const std::string& text) {
    return words::wrapped(text, page.width, "  ", "    ");
  };
  std::string text = line(out_line(page_of.joint));
  if (page_of.progress == nullptr) return text + line("no plan: " + page_of.no_plan);
  const auto& code = page_of.joint.joint->code;
  const auto& progress = *page_of.progress;
  struct Round {
    Targets targets;
    std::size_t of = 0;
    std::size_t done = 0;
    std::vector<int> left_out;
  };
  std::map<int, Round> rounds;
  std::size_t striped = 0;
  std::size_t checked = 0;
  for (const auto& position : page_of.joint.positions) {
    for (const auto* step : progress.steps_of(code, position.position)) {
      auto& round = rounds[step->pass_number()];
      const auto target = round_text(*step);
      auto same = std::ranges::find(round.targets, target, &Targets::value_type::first);
      if (same == round.targets.end()) same = round.targets.insert(same, {target, {}});
      same->second.push_back(position.position);
      ++round.of;
      if (step->stands == Stands::Done) ++round.done;
      if (step->stands == Stands::LeftOut) round.left_out.push_back(position.position);
    }
    const auto finish = progress.finish_of(code, position.position);
    if (finish.stripe != nullptr) ++striped;
    if (finish.second_check != nullptr) ++checked;
  }
  for (const auto& [number, round] : rounds) {
    text += line(fmt::format(
        "pass {}, {}: {} of {} done{}", number, targets_text(round.targets), round.done, round.of,
        round.left_out.empty() ? "" : ", left out " + record::write_positions(round.left_out)));
  }
  text += line(fmt::format("final stripe: {} of {}", striped, page_of.joint.positions.size()));
  if (checked > 0 || page_of.joint.joint->critical) {
    text += line(fmt::format("second person: {} of {}", checked, page_of.joint.positions.size()));
  }
  return text;
}

}  // namespace

std::vector<const audit::Deviation*> deviations_of(const JointPage& page_of,
                                                   std::optional<int> position) {
  std::vector<const audit::Deviation*> about;
  for (const auto& deviation : page_of.audit.deviations) {
    if (!record::same_code(deviation.joint, page_of.joint.joint->code)) continue;
    if (position && !deviation.is_about(*position)) continue;
    about.push_back(&deviation);
  }
  return about;
}

std::string deviations_text(const JointPage& page_of, std::optional<int> position,
                            const words::Page& page) {
  std::string text;
  const auto about = deviations_of(page_of, position);
  const auto shown =
      page_of.whole || position ? about.size() : shown_of(about.size(), kMostOfAudit);
  for (const auto* deviation : std::span(about).first(shown)) {
    text += deviation_text(page_of.audit, *deviation, true, page);
  }
  if (text.empty()) return "  nothing to flag\n";
  return text + and_more(about.size() - shown, whole_of(page_of), page);
}

std::vector<const ShownPhotograph*> photographs_of(const JointPage& page_of,
                                                   const std::vector<int>& positions) {
  std::vector<const ShownPhotograph*> about;
  const record::Address address{page_of.joint.joint->code, positions};
  for (const auto& entry : page_of.job.photographs) {
    if (record::concerns(entry.content, address)) about.push_back(&entry);
  }
  return about;
}

std::string photographs_section(const JointPage& page_of, const std::vector<int>& positions,
                                const words::Page& page) {
  const auto about = photographs_of(page_of, positions);
  if (about.empty()) return {};
  const auto shown = page_of.whole ? about.size() : shown_of(about.size(), kMostPhotographs);
  return words::strong("photographs", page) + '\n' +
         photograph_lines(std::span(about).last(shown), page) +
         and_more(about.size() - shown, "photo " + page_of.joint.joint->code, page, "  ");
}

std::string round_text(const progress::Step& step) {
  const auto target = words::target_text(step.planned(), step.joint->state->unit);
  return step.planned().pass.kind == record::PassKind::Check ? "check at " + target : target;
}

ordered_json position_json(const JointPage& page_of, const PositionState& position,
                           const record::Point& point) {
  auto json = compare_row_json(page_of.joint, position);
  const auto& code = page_of.joint.joint->code;
  json["x"] = point.x;
  json["y"] = point.y;
  json["out"] = position.removal != nullptr;
  json["out_disputed"] = ordered_json::array();
  for (const auto& disputed : finding::disputed_outs(*page_of.joint.joint, position.outs)) {
    for (std::size_t i = 0; i < position.outs.size(); ++i) {
      const auto& stamp = position.outs[i]->stamp;
      json["out_disputed"].push_back({{"what", disputed.what},
                                      {"line", stamp.line},
                                      {"by", stamp.by},
                                      {"said", disputed.said[i]}});
    }
  }
  json["passes_done"] = nullptr;
  json["passes"] = nullptr;
  json["final_value"] = nullptr;
  json["striped"] = nullptr;
  if (page_of.progress == nullptr) return json;
  const auto& progress = *page_of.progress;
  const auto steps = progress.steps_of(code, position.position);
  json["passes_done"] = std::ranges::count(steps, Stands::Done, &progress::Step::stands);
  json["passes"] = steps.size();
  json["final_value"] = progress.has_final_value(code, position.position);
  json["striped"] = progress.finish_of(code, position.position).stripe != nullptr;
  return json;
}

std::string joint_in_short(const JointPage& page_of, const words::Page& page) {
  if (page_of.in_short.empty()) return {};
  return words::wrapped(
      words::strong(fmt::format("{}: {}", page_of.joint.joint->code, page_of.in_short), page),
      page.width, "", "  ");
}

std::string joint_page_text(const JointPage& page_of, const words::Page& page) {
  std::string text = joint_in_short(page_of, page) + words::joint_heading(page_of.joint, page);
  text += '\n' + drawing_text(page_of, page);
  text += words::strong("bolt", page) + '\n' +
          words::joint_bolt_text(page_of.joint, page_of.joint.unit, page);
  text += words::strong("found", page) + '\n' + found_table(page_of, page);
  text += words::strong("audit", page) + '\n' + deviations_text(page_of, std::nullopt, page);
  text += photographs_section(page_of, {}, page);
  return text + words::strong("reassembly", page) + '\n' + progress_text(page_of, page);
}

std::string joint_page_json(const JointPage& page_of) {
  const auto& what = *page_of.joint.joint;
  ordered_json joint = {
      {"code", what.code},         {"holds", what.holds},
      {"size", what.size},         {"length_mm", nullptr},
      {"grade", what.grade},       {"into", what.into},
      {"engaged_mm", nullptr},     {"seat", what.seat},
      {"face_mm", nullptr},        {"parts", words::part_sentences(page_of.joint)},
      {"count", what.count},       {"layout", record::write_exact(what.layout)},
      {"one_time", what.one_time}, {"critical", what.critical}};
  if (what.length) joint["length_mm"] = what.length->in_millimetres();
  if (what.engaged) joint["engaged_mm"] = what.engaged->in_millimetres();
  if (what.face) joint["face_mm"] = what.face->in_millimetres();
  auto positions = ordered_json::array();
  const auto points = record::positions_of(what.layout, what.count);
  for (std::size_t i = 0; i < points.size(); ++i) {
    positions.push_back(position_json(page_of, page_of.joint.positions[i], points[i]));
  }
  auto deviations = ordered_json::array();
  for (const auto* deviation : deviations_of(page_of, std::nullopt)) {
    deviations.push_back(deviation_json(page_of.audit, *deviation));
  }
  ordered_json json = {{"joint", std::move(joint)},
                       {"bolt", words::joint_bolt_json(page_of.joint)},
                       {"positions", std::move(positions)},
                       {"deviations", std::move(deviations)},
                       {"photographs", photograph_rows_json(photographs_of(page_of, {}))},
                       {"no_plan", nullptr}};
  if (page_of.progress == nullptr) json["no_plan"] = page_of.no_plan;
  return json_text(kJointFormat, std::move(json));
}

}  // namespace screen
