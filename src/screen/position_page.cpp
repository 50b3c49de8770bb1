#include "screen/position_page.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "finding/not_to_be_tested.h"
#include "progress/turned_stripe.h"
#include "quantity/angle_text.h"
#include "record/address.h"
#include "screen/audit_answer.h"
#include "screen/finding_answer.h"
#include "screen/history_answer.h"
#include "screen/json_text.h"
#include "words/joint_heading.h"
#include "words/verdict_text.h"

namespace screen {
namespace {

using nlohmann::ordered_json;
using Stands = progress::Step::Stands;

const finding::PositionState& state_of(const JointPage& page_of, int position) {
  return page_of.joint.positions[static_cast<std::size_t>(position) - 1];
}

std::string_view word_of(Stands stands) {
  switch (stands) {
    case Stands::Open:
      return "open";
    case Stands::Done:
      return "done";
    case Stands::LeftOut:
      return "left out";
  }
  return "open";
}

std::string who_and_when(const record::Stamp& stamp) {
  return fmt::format("{}, {} (line {})", stamp.by, record::write_local(stamp.done_at), stamp.line);
}

std::string removal_text(const record::Joint& joint, const finding::PositionState& position) {
  if (position.removal == nullptr) return "not recorded as out";
  const auto& [stamp, removal] = *position.removal;
  std::string text =
      fmt::format("broke {} by {}", record::word_of(removal.broke), who_and_when(stamp));
  if (removal.broke == record::BreakLoose::Empty) {
    text = "found empty by " + who_and_when(stamp);
  }
  if (!removal.marked) text += "; no teardown mark";
  if (!removal.bag.empty()) text += "; bag " + removal.bag;
  if (!removal.note.empty()) text += "; note: " + removal.note;
  if (!position.is_out_disputed) return text;
  text = "DISPUTED, the worse counts: " + text;
  for (const auto& disputed : finding::disputed_outs(joint, position.outs)) {
    text += "; " + finding::in_words(disputed, position.outs);
  }
  return text;
}

std::string found_text(const JointPage& page_of, const finding::PositionState& position,
                       const words::Page& page) {
  const auto* finding = position.finding();
  if (finding == nullptr) return "  not tested\n";
  std::string text;
  if (const auto why = finding::why_not_to_be_tested(page_of.joint, position.position);
      !why.empty()) {
    text += words::wrapped(why, page.width, "  ", "    ");
  }
  text += finding_text(page_of.joint, *finding, page);
  if (auto disputed = words::disputed_findings(position, page_of.joint.unit); !disputed.empty()) {
    text += words::wrapped(disputed, page.width, "  ", "    ");
  } else if (position.findings.size() > 1) {
    text += words::wrapped(fmt::format("{} earlier, below; the latest counts",
                                       words::counted(position.findings.size() - 1, "finding")),
                           page.width, "  ", "    ");
  }
  return text;
}

// "done by KD, 2026-06-01 10:00 (line 12)"; of one that was done and is open again, both.
std::string how_it_stands(const progress::Step& step) {
  if (step.entry == nullptr) return std::string(word_of(step.stands));
  return fmt::format("{} by {}",
                     step.stands == Stands::Open ? "open again; last done" : word_of(step.stands),
                     who_and_when(step.entry->stamp));
}

std::string passes_text(const JointPage& page_of, int position, const words::Page& page) {
  const auto line = [&](const std::string& text) {
    return words::wrapped(text, page.width, "  ", "    ");
  };
  if (page_of.progress == nullptr) return line("no plan: " + page_of.no_plan);
  const auto& code = page_of.joint.joint->code;
  const auto& progress = *page_of.progress;
  std::string text;
  for (const auto* step : progress.steps_of(code, position)) {
    text += line(fmt::format("pass {}, {}: {}", step->pass_number(), round_text(*step),
                             how_it_stands(*step)));
  }
  const auto finish = progress.finish_of(code, position);
  if (finish.second_check != nullptr) {
    text += line("second person: " + who_and_when(finish.second_check->stamp));
  }
  if (finish.turned != nullptr) {
    text += line(fmt::format("final stripe found turned by {}: {}; {}",
                             quantity::write_exact(*finish.turned->content.turned),
                             who_and_when(finish.turned->stamp), progress::kAfterATurn));
  }
  return text + line(finish.stripe == nullptr
                         ? std::string("no final stripe")
                         : "final stripe: " + who_and_when(finish.stripe->stamp));
}

ordered_json stamp_json(const record::Stamp* stamp) {
  if (stamp == nullptr) return nullptr;
  return {{"by", stamp->by}, {"done_at", record::write_utc(stamp->done_at)}, {"line", stamp->line}};
}

ordered_json pass_json(const progress::Step& step) {
  const auto& pass = step.planned().pass;
  ordered_json json = {{"pass", step.pass_number()},
                       {"kind", record::word_of(pass.kind)},
                       {"target_nm", nullptr},
                       {"angle_deg", nullptr},
                       {"stands", word_of(step.stands)},
                       {"done", stamp_json(step.entry == nullptr ? nullptr : &step.entry->stamp)}};
  if (pass.aim) json["target_nm"] = pass.aim->torque.in_newton_metres();
  if (pass.angle) json["angle_deg"] = pass.angle->in_degrees();
  return json;
}

}  // namespace

std::string position_page_text(const JointPage& page_of, int position,
                               const std::vector<record::HistoryLine>& lines,
                               const words::Page& page) {
  const auto& state = state_of(page_of, position);
  std::string text =
      words::strong(record::write_address(page_of.joint.joint->code, position), page) +
      ", one of\n";
  text += words::position_heading(page_of.joint, position, page);
  text += words::strong("teardown", page) + '\n' +
          words::wrapped(removal_text(*page_of.joint.joint, state), page.width, "  ", "    ");
  text += words::strong("found", page) + '\n' + found_text(page_of, state, page);
  text += words::strong("audit", page) + '\n' + deviations_text(page_of, position, page);
  text += photographs_section(page_of, {position}, page);
  text += words::strong("reassembly", page) + '\n' + passes_text(page_of, position, page);
  return text + words::strong("as entered", page) + '\n' + history_text(lines, page);
}

std::string position_page_json(const JointPage& page_of, int position,
                               const std::vector<record::HistoryLine>& lines) {
  auto passes = ordered_json::array();
  ordered_json second_check = nullptr;
  ordered_json stripe = nullptr;
  if (page_of.progress != nullptr) {
    const auto& code = page_of.joint.joint->code;
    const auto& progress = *page_of.progress;
    for (const auto* step : progress.steps_of(code, position)) passes.push_back(pass_json(*step));
    const auto finish = progress.finish_of(code, position);
    if (finish.second_check != nullptr) second_check = stamp_json(&finish.second_check->stamp);
    if (finish.stripe != nullptr) stripe = stamp_json(&finish.stripe->stamp);
  }
  auto deviations = ordered_json::array();
  for (const auto* deviation : deviations_of(page_of, position)) {
    deviations.push_back(deviation_json(page_of.audit, *deviation));
  }
  const auto& what = *page_of.joint.joint;
  const auto points = record::positions_of(what.layout, what.count);
  const auto& point = points[static_cast<std::size_t>(position) - 1];
  return json_text(kPositionFormat,
                   {{"row", position_json(page_of, state_of(page_of, position), point)},
                    {"passes", std::move(passes)},
                    {"second_check", std::move(second_check)},
                    {"stripe", std::move(stripe)},
                    {"deviations", std::move(deviations)},
                    {"photographs", photograph_rows_json(photographs_of(page_of, {position}))},
                    {"lines", history_rows_json(lines)}});
}

}  // namespace screen
