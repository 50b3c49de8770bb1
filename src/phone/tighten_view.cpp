#include <algorithm>
#include <nlohmann/json.hpp>

#include "act/lookup.h"
#include "act/tightening_turn.h"
#include "failure/failure.h"
#include "phone/counter_unit.h"
#include "phone/views.h"
#include "progress/finish_commands.h"
#include "record/address.h"
#include "screen/step_screen.h"

namespace phone {
namespace {

using nlohmann::ordered_json;

constexpr std::size_t kStepsAhead = 48;

ordered_json mark_first(const progress::Reassembly& now, const progress::Unmarked& unmarked) {
  ordered_json first = {
      {"joint", unmarked.joint},
      {"counter", unit_of_counter(*finding::joint_in(now.survey, unmarked.joint)->joint)},
      {"unchecked", nullptr},
      {"unstriped", nullptr},
      {"says", progress::in_words(unmarked)}};
  if (!unmarked.unchecked.empty()) {
    first["unchecked"] = record::write_positions(act::checked_together(now.progress, unmarked));
  } else {
    first["unstriped"] = record::write_positions(unmarked.unstriped);
  }
  return first;
}

}  // namespace

nlohmann::ordered_json tighten_view(const logbook::Logbook& logbook, record::Moment moment,
                                    const Chosen& chosen) {
  std::optional<std::string> joint;
  if (const auto code = chosen_text(chosen, "joint"); !code.empty()) {
    joint = act::joint_or_refuse(logbook, code).content.code;
  }
  const progress::Reassembly now(logbook.job(), record::local_day(moment));
  const auto& steps = now.progress.steps();
  const auto is_here = [&](const progress::Step& step) {
    return !joint || record::same_code(step.joint->state->joint->code, *joint);
  };
  const auto done = std::ranges::count_if(steps, [&](const auto& step) {
    return is_here(step) && step.stands == progress::Step::Stands::Done;
  });
  ordered_json view = {{"joint", joint ? ordered_json(*joint) : ordered_json(nullptr)},
                       {"refused", nullptr},
                       {"unmet", nullptr},
                       {"mark_first", nullptr},
                       {"steps", ordered_json::array()},
                       {"done", done},
                       {"of", std::ranges::count_if(steps, is_here)},
                       {"stripes", ordered_json::array()},
                       {"wrenches", record::wrench_names(now.job)}};
  const auto* step = now.progress.next(joint);
  if (step == nullptr || step->stands != progress::Step::Stands::Open) {
    view["stripes"] = act::stripes_due(now, joint, moment);
    return view;
  }
  view["steps"] = screen::steps_json(now, joint, kStepsAhead);
  const auto& first = view["steps"].front();
  if (first["pass"] == 1 && first["place"] == 1) {
    view["unmet"] = {{"joint", first["joint"]},
                     {"says", act::unmet_before(now, *step->joint->state, moment)}};
  }
  try {
    act::refuse_out_of_turn(now, *step, moment);
    if (const auto unmarked = act::to_be_marked_before(now, *step, moment)) {
      view["mark_first"] = mark_first(now, *unmarked);
    }
  } catch (const failure::Refusal& refusal) {
    view["refused"] = refusal.what();
  }
  return view;
}

}  // namespace phone
