#include "screen/progress_answer.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "record/address.h"
#include "screen/json_text.h"
#include "words/joint_heading.h"
#include "words/pass_text.h"

namespace screen {
namespace {

using progress::Step;
using Stands = Step::Stands;

const std::string& code_of(const Step& step) { return step.joint->state->joint->code; }

std::size_t count_of(const progress::Progress& progress, Stands stands) {
  return static_cast<std::size_t>(std::ranges::count(progress.steps(), stands, &Step::stands));
}

}  // namespace

std::string step_line(const Step& step) {
  return fmt::format("{}, pass {} of {}: {}", record::write_address(code_of(step), step.position),
                     step.pass_number(), step.planned().of,
                     words::work_text(step.planned(), step.joint->state->unit));
}

std::string standing_text(const progress::Progress& progress, const words::Page& page) {
  if (progress.steps().empty()) return words::no_joints(page);
  const auto done = count_of(progress, Stands::Done);
  const auto left_out = count_of(progress, Stands::LeftOut);
  std::string text = words::wrapped(
      fmt::format("{} of {} done{}", done, words::counted(progress.steps().size(), "step"),
                  left_out == 0 ? "" : fmt::format(", {} left out", left_out)),
      page.width, "", "");
  const auto* next = progress.next();
  return text + words::wrapped(next == nullptr
                                   ? std::string("every pass is done; final stripes and what "
                                                 "else is open: \"boltwitness sequence --status\"")
                                   : (next->stands == Stands::LeftOut ? "left out: " : "next: ") +
                                         step_line(*next),
                               page.width, "", "  ");
}

std::string standing_json(const progress::Progress& progress,
                          const std::optional<std::string>& joint) {
  const auto is_here = [&](const Step& step) {
    return !joint || record::same_code(code_of(step), *joint);
  };
  const auto count_here = [&](Stands stands) {
    return std::ranges::count_if(
        progress.steps(), [&](const Step& step) { return is_here(step) && step.stands == stands; });
  };
  nlohmann::ordered_json answer = {{"done", count_here(Stands::Done)},
                                   {"left_out", count_here(Stands::LeftOut)},
                                   {"of", std::ranges::count_if(progress.steps(), is_here)},
                                   {"next", nullptr}};
  if (const auto* next = progress.next(joint)) {
    const auto& planned = next->planned();
    nlohmann::ordered_json step = {{"joint", code_of(*next)},
                                   {"pass", next->pass_number()},
                                   {"passes", planned.of},
                                   {"position", next->position},
                                   {"kind", record::word_of(planned.pass.kind)},
                                   {"target_nm", nullptr},
                                   {"angle_deg", nullptr},
                                   {"wrench", nullptr},
                                   {"setting", nullptr},
                                   {"setting_unit", nullptr}};
    if (planned.pass.aim) step["target_nm"] = planned.pass.aim->torque.in_newton_metres();
    if (planned.pass.angle) step["angle_deg"] = planned.pass.angle->in_degrees();
    if (planned.setting) {
      step["wrench"] = planned.setting->wrench->name;
      step["setting"] = planned.setting->setting;
      step["setting_unit"] = quantity::name_of(planned.setting->wrench->scale.unit);
    }
    answer["next"] = std::move(step);
  }
  return json_text(kProgressFormat, std::move(answer));
}

}  // namespace screen
