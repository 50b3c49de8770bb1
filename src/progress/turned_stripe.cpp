#include "progress/turned_stripe.h"

#include <map>

#include "fastener/bearing.h"
#include "fastener/thread_text.h"
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
