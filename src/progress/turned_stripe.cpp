#include "progress/turned_stripe.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "fastener/bearing.h"
#include "fastener/thread_text.h"
#include "progress/final_value.h"
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

const record::Entry<record::Tightening>* slackened_unseen(const Progress& progress,
                                                          std::string_view joint, int position) {
  const auto finish = progress.finish_of(joint, position);
  if (finish.turned == nullptr || finish.looked_at != nullptr) return nullptr;
  for (const auto* step : progress.steps_of(joint, position)) {
    if (!step->planned().pass.asks_for_look) continue;
    return step->stands == Step::Stands::Done ? step->entry : nullptr;
  }
  return nullptr;
}

std::string tell_what_was_seen(const record::Entry<record::Tightening>& slackened) {
  return fmt::format(
      "tighten {} --pass {} --at {} --seen \"what thread, face and seat looked like\" --replace {} "
      "--why "
      "\"what was seen\"",
      record::address_text(slackened.content), slackened.content.pass,
      record::write_utc(slackened.stamp.done_at), slackened.stamp.line);
}

namespace {

template <class Content>
bool is_at(const record::Entry<Content>& entry, std::string_view joint, int position) {
  return record::same_code(entry.content.joint, joint) &&
         std::ranges::find(entry.content.positions, position) != entry.content.positions.end();
}

// "J06/02 reached its final value on 2026-06-20 10:00 (line 31), after this"; empty where all had.
std::string reached_later(const Progress& progress, std::string_view joint,
                          const std::vector<int>& positions, record::Moment done_at) {
  for (const int position : positions) {
    const auto* reached = progress.finish_of(joint, position).reached;
    if (reached == nullptr || reached->done_at <= done_at) continue;
    return fmt::format(
        "{} reached its final value on {} (line {}), and a stripe from before that does not stand "
        "for it; give the time when it was drawn with --at",
        record::write_address(joint, position), record::write_local(reached->done_at),
        reached->line);
  }
  return {};
}

// The command that leads to the final value: that of the pass that was left out, where nothing else
// is open, since the guided tightening has come to its end then.
std::string way_on(const Progress& progress, std::string_view joint,
                   const std::vector<int>& positions) {
  for (const int position : positions) {
    const auto steps = progress.steps_of(joint, position);
    if (std::ranges::find(steps, Step::Stands::Open, &Step::stands) != steps.end()) continue;
    const auto left_out = std::ranges::find(steps, Step::Stands::LeftOut, &Step::stands);
    if (left_out == steps.end()) continue;
    return fmt::format("tighten {} --pass {}", record::write_address(joint, position),
                       (*left_out)->pass_number());
  }
  return fmt::format("tighten {}", joint);
}

}  // namespace

const record::Entry<record::FinalStripe>* stripe_at(const record::Job& job, std::string_view joint,
                                                    int position, record::Moment moment) {
  const record::Entry<record::FinalStripe>* last = nullptr;
  for (const auto& entry : job.stripes) {
    if (entry.stamp.done_at > moment || !is_at(entry, joint, position)) continue;
    if (last == nullptr || record::is_later(entry.stamp, last->stamp)) last = &entry;
  }
  if (last == nullptr) return nullptr;
  const bool came_out = std::ranges::any_of(job.removals, [&](const auto& entry) {
    return entry.stamp.done_at <= moment && record::is_later(entry.stamp, last->stamp) &&
           is_at(entry, joint, position);
  });
  return came_out ? nullptr : last;
}

std::string why_no_stripe(const Reassembly& reassembly, std::string_view joint,
                          const std::vector<int>& positions, record::Moment done_at) {
  if (auto alone = why_left_alone(reassembly, joint, positions); !alone.empty()) return alone;
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
  if (open.empty()) {
    for (const int position : positions) {
      if (auto why = why_not_final(reassembly.job, reassembly.progress, joint, position);
          !why.empty()) {
        return why + "; the stripe says that it has its final value";
      }
    }
    for (const int position : positions) {
      const auto* slackened = slackened_unseen(reassembly.progress, joint, position);
      if (slackened == nullptr) continue;
      return fmt::format(
          "{} was found turned, and nothing tells what was seen of it when it was slackened (line "
          "{}): {}",
          record::write_address(joint, position), slackened->stamp.line,
          tell_what_was_seen(*slackened));
    }
    return reached_later(reassembly.progress, joint, positions, done_at);
  }
  const auto where = record::write_address(joint, open);
  if (look != nullptr) {
    return fmt::format(
        "{} {} found turned by {} on {}, and a new stripe does not mend that: {}; \"boltwitness "
        "tighten {}\" leads through it",
        where, open.size() == 1 ? "was" : "were", quantity::write_exact(*look->content.turned),
        record::write_local(look->stamp.done_at), kAfterATurn, joint);
  }
  std::string why;
  for (const int position : open) {
    const auto* tested = reassembly.progress.finish_of(joint, position).tested;
    if (tested == nullptr) continue;
    why = fmt::format(" (the test in line {} broke {} loose)", tested->line,
                      record::write_address(joint, position));
    break;
  }
  return fmt::format(
      "{} {} not reached the final value{}; the stripe says it has. \"boltwitness {}\" goes on "
      "with "
      "it",
      where, open.size() == 1 ? "has" : "have", why, way_on(reassembly.progress, joint, open));
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
