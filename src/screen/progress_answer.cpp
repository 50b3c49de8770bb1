#include "screen/progress_answer.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "record/address.h"
#include "screen/json_text.h"
#include "screen/large_text.h"
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

// The step that follows in the order of the plan, open or left out.
const Step* step_after(const Step& step, const progress::Progress& progress) {
  const auto& steps = progress.steps();
  const auto next = std::find_if(steps.begin() + (&step - steps.data()) + 1, steps.end(),
                                 [](const Step& each) { return each.stands == Stands::Open; });
  return next == steps.end() ? nullptr : &*next;
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

std::string standing_json(const progress::Progress& progress) {
  nlohmann::ordered_json answer = {{"done", count_of(progress, Stands::Done)},
                                   {"left_out", count_of(progress, Stands::LeftOut)},
                                   {"of", progress.steps().size()},
                                   {"next", nullptr}};
  if (const auto* next = progress.next()) {
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
  return json_text(answer);
}

std::string step_keys() {
  return "  d  done\n  v  done with other values\n  k  leave out\n  u  take the last answer back\n"
         "  q  quit; the next call goes on here\n";
}

std::string step_screen(const Step& step, const progress::Progress& progress,
                        const words::Page& page) {
  const auto& order = step.planned().order;
  const auto place = std::ranges::find(order, step.position) - order.begin() + 1;
  std::string text = '\n' + std::string(std::min<std::size_t>(page.width, 60), '-') + '\n';
  text += words::wrapped(fmt::format("{} {}, pass {} of {}, {} of {} in this pass", code_of(step),
                                     step.joint->state->joint->holds, step.pass_number(),
                                     step.planned().of, place, order.size()),
                         page.width, "", "  ");
  text += '\n' + large_digits(std::to_string(step.position), "    ") + '\n';
  text +=
      words::wrapped(words::strong(words::work_text(step.planned(), step.joint->state->unit), page),
                     page.width, "  ", "    ");
  if (const auto* after = step_after(step, progress)) {
    text += words::wrapped(
        fmt::format("then {}", record::write_address(code_of(*after), after->position)), page.width,
        "  ", "    ");
  }
  text += step_keys();
  return text;
}

}  // namespace screen
