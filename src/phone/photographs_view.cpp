#include <nlohmann/json.hpp>

#include "act/outlook.h"
#include "act/photograph_entry.h"
#include "phone/photograph_rows.h"
#include "phone/views.h"

namespace phone {

nlohmann::ordered_json photographs_view(const logbook::Logbook& logbook, record::Moment now,
                                        const Chosen& chosen) {
  const auto of = chosen_text(chosen, "of");
  const auto photographs = act::photographs_of(logbook, of, now);
  std::vector<const screen::ShownPhotograph*> shown;
  for (const auto& each : photographs) shown.push_back(&each);
  const act::Outlook outlook(logbook, now);
  auto joints = nlohmann::ordered_json::array();
  for (const auto& state : outlook.entered().survey.joints) {
    joints.push_back({{"joint", state.joint->code}, {"holds", state.joint->holds}});
  }
  auto deviations = nlohmann::ordered_json::array();
  for (const auto& deviation : audit::run(outlook.subject()).deviations) {
    deviations.push_back({{"id", deviation.id}, {"says", deviation.says}});
  }
  return {{"photographs", newest_first(std::move(shown))},
          {"joints", std::move(joints)},
          {"deviations", std::move(deviations)}};
}

}  // namespace phone
