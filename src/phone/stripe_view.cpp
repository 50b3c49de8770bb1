#include <nlohmann/json.hpp>

#include "act/tightening_turn.h"
#include "phone/counter_unit.h"
#include "phone/views.h"
#include "progress/due_rechecks.h"
#include "progress/finish_commands.h"
#include "record/address.h"
#include "words/recheck_in_words.h"

namespace phone {

nlohmann::ordered_json stripe_view(const logbook::Logbook& logbook, record::Moment moment) {
  const progress::Reassembly now(logbook.job(), record::local_day(moment));
  auto due = nlohmann::ordered_json::array();
  auto why_not = nlohmann::ordered_json::array();
  for (const auto& to_stripe : act::positions_to_stripe(now, std::nullopt)) {
    for (const auto& why : to_stripe.why_not) why_not.push_back(why);
    if (to_stripe.positions.empty()) continue;
    const auto& what = *to_stripe.joint->joint;
    due.push_back({{"joint", what.code},
                   {"holds", what.holds},
                   {"positions", record::write_positions(to_stripe.positions)},
                   {"counter", unit_of_counter(what)}});
  }
  auto striped = nlohmann::ordered_json::array();
  for (const auto& state : now.survey.joints) {
    std::vector<int> positions;
    for (int position = 1; position <= state.joint->count; ++position) {
      if (now.progress.finish_of(state.joint->code, position).stripe != nullptr) {
        positions.push_back(position);
      }
    }
    if (positions.empty()) continue;
    striped.push_back({{"joint", state.joint->code},
                       {"holds", state.joint->holds},
                       {"positions", record::write_positions(positions)},
                       {"counter", unit_of_counter(*state.joint)}});
  }
  auto looks = nlohmann::ordered_json::array();
  for (const auto& look :
       progress::due_rechecks(now.job, now.survey, now.progress, moment, std::nullopt)) {
    looks.push_back({{"says", words::due_in_words(look, moment)}, {"overdue", look.is_overdue}});
  }
  return {{"due", std::move(due)},
          {"why_not", std::move(why_not)},
          {"striped", std::move(striped)},
          {"looks", std::move(looks)}};
}

}  // namespace phone
