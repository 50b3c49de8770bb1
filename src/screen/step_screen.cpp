#include "screen/step_screen.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "plan/new_fasteners.h"
#include "plan/renewal_list.h"
#include "quantity/number_text.h"
#include "quantity/stated_torque.h"
#include "record/address.h"
#include "screen/joint_drawing.h"
#include "screen/progress_answer.h"
#include "words/pass_text.h"

namespace screen {
namespace {

using progress::Step;
using quantity::StatedTorque;

constexpr std::size_t kNextShown = 3;

const record::Joint& joint_of(const Step& step) { return *step.joint->state->joint; }

StatedTorque setting_of(const plan::WrenchSetting& planned) {
  return {planned.setting, planned.wrench->scale.unit};
}

// The last line that says what a wrench was set to; nothing where none does.
const record::Tightening* last_set(const record::Job& job) {
  const record::Entry<record::Tightening>* last = nullptr;
  for (const auto& entry : job.tightenings) {
    if (!entry.content.setting) continue;
    if (last == nullptr || record::is_later(entry.stamp, last->stamp)) last = &entry;
  }
  return last == nullptr ? nullptr : &last->content;
}

// What a wrench was left at.
struct WrenchLeft {
  std::string name;
  StatedTorque at;
};

std::optional<WrenchLeft> left_at(const record::Job& job) {
  const auto* last = last_set(job);
  if (last == nullptr) return std::nullopt;
  return WrenchLeft{last->wrench, {*last->setting, last->unit}};
}

// What the hand does to the wrench before this step; empty where it stays as it is.
std::string wrench_text(const Step& step, const std::optional<WrenchLeft>& last) {
  const auto& planned = step.planned().setting;
  if (!planned) return {};
  const auto asked = quantity::write_exact(setting_of(*planned));
  const auto& name = planned->wrench->name;
  if (!last) return fmt::format("set {} to {}", name, asked);
  if (!record::same_code(last->name, name)) {
    return fmt::format("take {} now, no longer {}, and set it to {}", name, last->name, asked);
  }
  // Settings of one scale; a mark of it may be written with one more digit than it was typed with.
  const bool is_same = last->at.unit == planned->wrench->scale.unit &&
                       std::fabs(last->at.value - planned->setting) < 1e-9 * planned->setting;
  return is_same ? std::string()
                 : fmt::format("set {} anew, to {}: it was {}", name, asked,
                               quantity::write_exact(last->at));
}

std::string condition_text(const Step& step) {
  const auto* specified = step.joint->state->at(step.position).specified;
  if (specified == nullptr) return {};
  switch (specified->condition) {
    case fastener::Condition::Dry:
      return "dry: thread and head face free of oil and grease";
    case fastener::Condition::Oiled:
      return "oiled: thread and head face";
    case fastener::Condition::Threadlocker:
      return "threadlocker on the thread; nothing is tightened once more when it has set";
    case fastener::Condition::AntiSeize:
      return "anti-seize on thread and head face";
    case fastener::Condition::AsReceived:
      break;
  }
  return {};
}

// What is wrong with the old fastener, where a new one goes in here and is not in yet.
std::string new_fastener_text(const Step& step, const progress::Reassembly& now,
                              const std::vector<plan::Renewing>& renewals) {
  const auto due = std::ranges::find_if(renewals, [&](const plan::Renewing& each) {
    return each.joint->joint == &joint_of(step) && each.position == step.position;
  });
  if (due == renewals.end()) return {};
  std::vector<std::string_view> reasons;
  for (const auto reason : due->reasons) reasons.push_back(plan::in_words(reason));
  const auto why = fmt::format("{}", fmt::join(reasons, ", "));
  if (!due->is_certain()) return fmt::format("look at the thread first: {}", why);
  const plan::NewFasteners fasteners(now.job, now.survey);
  const auto& fastener = fasteners.at(joint_of(step).code, step.position);
  if (fastener.is_in) return {};
  if (due->has_arrived) {
    return fmt::format("NEW FASTENER here ({}): the one that has arrived, not the old one{}", why,
                       due->old_went_back == nullptr ? "" : ", which is in and comes out first");
  }
  return fmt::format(
      "NEW FASTENER here ({}), and none has arrived: the old one must not go back; k leaves it out",
      why);
}

// What the hand does to a fastener before a pass that comes after what holds it now: that is
// undone. Nothing where a pass before has been done since, which slackened it or came after that.
std::string sent_back_text(const Step& step, const progress::Progress& progress) {
  const auto kind = step.planned().pass.kind;
  if (kind == record::PassKind::Loosen || kind == record::PassKind::Renew) return {};
  const Step* holds = nullptr;                 // the last done of this pass and those behind it
  const record::Stamp* before_done = nullptr;  // the last of the passes before
  for (const auto* each : progress.steps_of(joint_of(step).code, step.position)) {
    if (each->entry == nullptr || !record::is_work(each->entry->content)) continue;
    const auto& stamp = each->entry->stamp;
    if (each->pass_number() >= step.pass_number()) {
      if (holds == nullptr || record::is_later(stamp, holds->entry->stamp)) holds = each;
    } else if (each->stands == Step::Stands::Open) {
      return {};
    } else if (before_done == nullptr || record::is_later(stamp, *before_done)) {
      before_done = &stamp;
    }
  }
  if (holds == nullptr) return {};
  if (before_done != nullptr && record::is_later(*before_done, holds->entry->stamp)) return {};
  return fmt::format(fmt::runtime(holds->stands == Step::Stands::Open
                                      ? "SLACKEN it fully first: what line {} did counts no more"
                                      : "SLACKEN it fully first: line {} tightened it further"),
                     holds->entry->stamp.line);
}

// "12, 3, 9", and from where the pass or the joint is another one "J06/01 in pass 3".
std::string next_text(const Step& step, const progress::Progress& progress, Guided guided) {
  std::vector<std::string> places;
  const auto& steps = progress.steps();
  const auto* before = &step;
  for (const auto* each = &step + 1; each != steps.data() + steps.size(); ++each) {
    if (each->stands != Step::Stands::Open) continue;
    const bool is_here = record::same_code(joint_of(*each).code, joint_of(step).code);
    if (guided == Guided::JointAlone && !is_here) continue;
    if (places.size() == kNextShown) break;
    if (each->joint == before->joint && each->pass_number() == before->pass_number()) {
      places.push_back(std::to_string(each->position));
    } else {
      places.push_back(fmt::format("{} in pass {}",
                                   record::write_address(joint_of(*each).code, each->position),
                                   each->pass_number()));
    }
    before = each;
  }
  return places.empty() ? std::string("the last one that is open")
                        : fmt::format("then {}", fmt::join(places, ", "));
}

// What has to be seen to before the pull, but for the condition.
std::vector<std::string> warnings_before(const Step& step, const progress::Reassembly& now,
                                         const std::vector<plan::Renewing>& renewals,
                                         const std::optional<WrenchLeft>& left) {
  std::vector<std::string> warnings;
  for (auto& says : {sent_back_text(step, now.progress), new_fastener_text(step, now, renewals),
                     wrench_text(step, left)}) {
    if (!says.empty()) warnings.push_back(says);
  }
  return warnings;
}

std::vector<LargeFigure> figures_of(const Step& step) {
  std::vector<LargeFigure> figures = {{"position", std::to_string(step.position), ""}};
  const auto& planned = step.planned();
  if (planned.setting) {
    const auto& wrench = *planned.setting->wrench;
    figures.push_back({fmt::format("{} set to", wrench.name),
                       quantity::write_rounded(planned.setting->setting),
                       std::string(quantity::name_of(wrench.scale.unit))});
  } else if (planned.pass.angle) {
    const bool loosens = planned.pass.kind == record::PassKind::Loosen;
    figures.push_back({loosens ? "loosen by" : "turn by",
                       quantity::write_rounded(planned.pass.angle->in_degrees()), "°"});
  }
  return figures;
}

}  // namespace

std::string step_keys_in_short(const words::Page& page) {
  return words::wrapped(
      "d done, v other values, k leave out, u take back, m map, q quit; ? for more", page.width, "",
      "");
}

std::string step_keys(const words::Page& page) {
  std::string text;
  const auto tell = [&](std::string_view line) {
    text += words::wrapped(line, page.width, "  ", "      ");
  };
  tell("d: done as it stands here");
  tell("v: done with another wrench, setting or turn; it asks for them");
  tell("k: leave it out; it asks why, and the step stays on the open list");
  tell("u: take the last answer back; it stays readable, struck");
  tell("m: a map of the joint: where this position is");
  tell("q: quit; all of it is kept, and tighten goes on where you were");
  return text;
}

std::string step_map(const Step& step, const words::Page& page) {
  constexpr char kHere = '*';
  std::string marks(step.joint->state->positions.size(), ' ');
  marks[static_cast<std::size_t>(step.position) - 1] = kHere;
  return joint_drawing(joint_of(step).layout, marks, page) +
         words::wrapped(fmt::format("{}{} is {}; 1 at the datum", step.position, kHere,
                                    record::write_address(joint_of(step).code, step.position)),
                        page.width, "  ", "  ");
}

std::string step_screen(const Step& step, const progress::Reassembly& reassembly, Guided guided,
                        LargeLetters letters, const words::Page& page) {
  const auto& order = step.planned().order;
  const auto place = std::ranges::find(order, step.position) - order.begin() + 1;
  std::string text = '\n' + std::string(std::min<std::size_t>(page.width, 60), '-') + '\n';
  text += words::wrapped(words::strong(step_line(step), page), page.width, "", "  ");
  text += words::wrapped(
      fmt::format("{}; {} of {} in this pass", joint_of(step).holds, place, order.size()),
      page.width, "  ", "  ");
  for (const auto& says :
       warnings_before(step, reassembly, plan::renewal_list(reassembly.job, reassembly.survey),
                       left_at(reassembly.job))) {
    text += words::wrapped(words::strong(says, page), page.width, "  ", "    ");
  }
  if (const auto says = condition_text(step); !says.empty()) {
    text += words::wrapped(says, page.width, "  ", "    ");
  }
  text += '\n' + large_figures(figures_of(step), letters, page.width) + '\n';
  text += words::wrapped(next_text(step, reassembly.progress, guided), page.width, "  ", "    ");
  return text + step_keys_in_short(page);
}

nlohmann::ordered_json steps_json(const progress::Reassembly& reassembly,
                                  const std::optional<std::string>& joint, std::size_t most) {
  auto rows = nlohmann::ordered_json::array();
  const auto renewals = plan::renewal_list(reassembly.job, reassembly.survey);
  auto left = left_at(reassembly.job);
  for (const auto& step : reassembly.progress.steps()) {
    if (rows.size() == most) break;
    const auto& what = joint_of(step);
    if (step.stands != Step::Stands::Open) continue;
    if (joint && !record::same_code(*joint, what.code)) continue;
    const auto& planned = step.planned();
    auto before = warnings_before(step, reassembly, renewals, left);
    if (auto says = condition_text(step); !says.empty()) before.push_back(std::move(says));
    const auto place = std::ranges::find(planned.order, step.position) - planned.order.begin() + 1;
    nlohmann::ordered_json row = {{"joint", what.code},
                                  {"holds", what.holds},
                                  {"position", step.position},
                                  {"place", place},
                                  {"of", planned.order.size()},
                                  {"pass", step.pass_number()},
                                  {"passes", planned.of},
                                  {"says", words::work_text(planned, step.joint->state->unit)},
                                  {"kind", record::word_of(planned.pass.kind)},
                                  {"wrench", nullptr},
                                  {"setting", nullptr},
                                  {"unit", nullptr},
                                  {"angle_deg", nullptr},
                                  {"target_nm", nullptr},
                                  {"asks_for_look", planned.pass.asks_for_look},
                                  {"before", std::move(before)},
                                  {"final_when", nullptr}};
    if (planned.pass.aim) row["target_nm"] = planned.pass.aim->torque.in_newton_metres();
    if (planned.pass.angle) row["angle_deg"] = planned.pass.angle->in_degrees();
    if (step.joint->stage == plan::Stage::Final) row["final_when"] = what.final_when;
    if (planned.setting) {
      const auto set = setting_of(*planned.setting);
      row["wrench"] = planned.setting->wrench->name;
      row["setting"] = set.value;
      row["unit"] = quantity::name_of(set.unit);
      left = WrenchLeft{planned.setting->wrench->name, set};
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

}  // namespace screen
