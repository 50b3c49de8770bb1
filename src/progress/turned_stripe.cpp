#include "progress/turned_stripe.h"

#include <fmt/format.h>

#include <map>

#include "fastener/bearing.h"
#include "fastener/thread_text.h"
#include "quantity/angle_text.h"
#include "record/address.h"

namespace progress {
namespace {

// The last tightening of each position of the joint.
std::map<int, const record::Tightening*> last_tightenings(const record::Job& job,
                                                          const std::string& joint) {
  std::map<int, const record::Entry<record::Tightening>*> last;
  for (const auto& entry : job.tightenings) {
    if (!record::same_code(entry.content.joint, joint)) continue;
    if (!record::is_work(entry.content)) continue;
    for (const int position : entry.content.positions) {
      auto& latest = last[position];
      if (latest == nullptr || record::is_later(entry.stamp, latest->stamp)) latest = &entry;
    }
  }
  std::map<int, const record::Tightening*> tightenings;
  for (const auto& [position, entry] : last) tightenings[position] = &entry->content;
  return tightenings;
}

// The torque that all the positions were last brought to, where it is one and came last.
std::optional<quantity::Torque> common_torque(const record::Job& job,
                                              const record::Recheck& recheck) {
  const auto last = last_tightenings(job, recheck.joint);
  std::optional<quantity::Torque> common;
  for (const int position : recheck.positions) {
    const auto found = last.find(position);
    if (found == last.end()) return std::nullopt;
    const auto kind = found->second->target.kind;
    const auto torque = record::applied_torque(*found->second);
    const bool is_torque = kind == record::PassKind::Torque || kind == record::PassKind::Check;
    if (!is_torque || !torque || (common && *common != *torque)) return std::nullopt;
    common = torque;
  }
  return common;
}

}  // namespace

std::string why_no_stripe(const Reassembly& reassembly, std::string_view joint,
                          const std::vector<int>& positions) {
  std::vector<int> open;
  const record::Entry<record::Recheck>* look = nullptr;
  for (const int position : positions) {
    if (reassembly.progress.has_final_value(joint, position)) continue;
    const auto* turned = reassembly.progress.finish_of(joint, position).turned;
    // One that turned weighs more than one that is not there yet.
    if (turned != nullptr && look == nullptr) open.clear();
    if (turned != nullptr) look = turned;
    if ((turned == nullptr) == (look == nullptr)) open.push_back(position);
  }
  if (open.empty()) return {};
  const auto where = record::write_address(joint, open);
  if (look != nullptr) {
    return fmt::format(
        "{} {} found turned by {} on {}, and a new stripe does not mend that: {}; \"boltwitness "
        "tighten {}\" leads through it",
        where, open.size() == 1 ? "was" : "were", quantity::write_exact(*look->content.turned),
        record::write_local(look->stamp.done_at), kAfterATurn, joint);
  }
  return fmt::format(
      "{} {} not reached the final value; the stripe says it has. \"boltwitness tighten {}\" goes "
      "on with it",
      where, open.size() == 1 ? "has" : "have", joint);
}

std::optional<TurnedStripe> turned_stripe(const Reassembly& reassembly,
                                          const record::Recheck& recheck) {
  const auto* state = finding::joint_in(reassembly.survey, recheck.joint);
  if (state == nullptr || !state->joint->length || !recheck.turned) return std::nullopt;
  const auto thread = fastener::read_thread(state->joint->size);
  TurnedStripe turned{fastener::lost_preload(thread, *state->joint->length, *recheck.turned),
                      fastener::assumed_stretch(thread, *state->joint->length),
                      common_torque(reassembly.job, recheck), std::nullopt,
                      fastener::Condition::AsReceived};
  const auto* specified = state->at(recheck.positions.front()).specified;
  if (specified != nullptr) turned.condition = specified->condition;
  const auto grade = fastener::read_grade(state->joint->grade);
  const auto friction = fastener::friction_band(
      turned.condition, grade ? fastener::metal_of(*grade) : fastener::BoltMetal::Steel);
  if (turned.at && friction) {
    turned.had = fastener::preload_band(thread, fastener::usual_bearing_diameter(thread), *friction,
                                        *turned.at);
  }
  return turned;
}

}  // namespace progress
