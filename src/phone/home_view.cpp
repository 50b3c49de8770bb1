#include <nlohmann/json.hpp>

#include "act/outlook.h"
#include "phone/photograph_rows.h"
#include "phone/views.h"
#include "progress/teardown_turn.h"
#include "screen/status_answer.h"
#include "words/joint_heading.h"

namespace phone {

std::string chosen_text(const Chosen& chosen, const std::string& name) {
  const auto found = chosen.find(name);
  return found == chosen.end() ? std::string() : found->second;
}

nlohmann::ordered_json home_view(const logbook::Logbook& logbook, record::Moment now) {
  const act::Outlook outlook(logbook, now);
  const auto audit = audit::run(outlook.subject());
  const auto& job = outlook.entered().job;
  const auto teardown = progress::teardown_of(job);
  auto joints = nlohmann::ordered_json::array();
  for (const auto& state : outlook.entered().survey.joints) {
    joints.push_back({{"joint", state.joint->code},
                      {"holds", state.joint->holds},
                      {"kind", words::kind_text(*state.joint)},
                      {"count", state.joint->count},
                      {"apart", progress::positions_taken_apart(state, teardown)}});
  }
  std::vector<const screen::ShownPhotograph*> of_machine;
  for (const auto& each : job.photographs) {
    if (record::subject_of(each.content) == record::kWholeMachine) of_machine.push_back(&each);
  }
  return {{"machine", job.start.machine},
          {"status", nlohmann::ordered_json::parse(screen::status_json(
                         {outlook.reassembly(), outlook.open(), audit, outlook.circle(), now}))},
          {"joints", std::move(joints)},
          {"photographs", newest_first(std::move(of_machine))}};
}

}  // namespace phone
