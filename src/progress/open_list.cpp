#include "progress/open_list.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <map>
#include <set>

#include "finding/joint_index.h"
#include "plan/renewal_list.h"
#include "progress/cover_times.h"
#include "progress/due_rechecks.h"
#include "progress/finish_commands.h"
#include "progress/fluid_balance.h"
#include "progress/hold_point_state.h"
#include "progress/item_count.h"
#include "progress/teardown.h"
#include "progress/turned_stripe.h"
#include "quantity/number_text.h"
#include "quantity/stated_torque.h"
#include "quantity/volume_text.h"
#include "record/address.h"
#include "record/current_decisions.h"
#include "record/deviation_id.h"

namespace progress {
namespace {

using Stands = Step::Stands;

bool came_out(const finding::PositionState& position) {
  return position.removal != nullptr &&
         position.removal->content.broke != record::BreakLoose::Empty;
}

// Its final value was set, and not below the least that it may be; the audit holds up what was.
bool is_at_final_value(const Progress& progress, const std::string& joint, int position) {
  return progress.has_final_value(joint, position) &&
         progress.ended_below(joint, position) == nullptr;
}

void count_passes(const Reassembly& reassembly, const finding::JointState& joint,
                  JointCount& count) {
  std::map<int, bool> is_through;  // by number of the pass
  for (const auto& position : joint.positions) {
    for (const auto* step : reassembly.progress.steps_of(joint.joint->code, position.position)) {
      auto& through = is_through.try_emplace(step->pass_number(), true).first->second;
      through = through && step->stands == Stands::Done;
    }
  }
  count.passes_planned = static_cast<int>(is_through.size());
  count.passes = static_cast<int>(
      std::ranges::count_if(is_through, [](const auto& pass) { return pass.second; }));
}

JointCount count_of(const Reassembly& reassembly, const finding::JointState& joint) {
  JointCount count;
  count.joint = &joint;
  std::set<std::string> bags;
  for (const auto& position : joint.positions) {
    const auto& code = joint.joint->code;
    const auto finish = reassembly.progress.finish_of(code, position.position);
    if (!reassembly.progress.steps_of(code, position.position).empty()) ++count.planned;
    const auto* removal = position.removal;
    if (came_out(position)) ++count.out;
    if (removal != nullptr && !came_out(position)) ++count.found_empty;
    if (came_out(position) && !removal->content.bag.empty()) bags.insert(removal->content.bag);
    if (is_at_final_value(reassembly.progress, code, position.position)) ++count.final_value;
    if (finish.stripe != nullptr) ++count.striped;
    if (finish.second_check != nullptr) ++count.checked;
  }
  count_passes(reassembly, joint, count);
  count.bags.assign(bags.begin(), bags.end());
  return count;
}

// The steps of one joint in one pass that stand so, as one point each.
class PassPoints {
 public:
  void add(const Step& step) {
    if (step.stands == Stands::Done) return;
    if (points_.empty() || points_.back().first->joint != step.joint ||
        points_.back().first->pass != step.pass || points_.back().first->stands != step.stands) {
      points_.push_back({&step, {}});
    }
    points_.back().second.push_back(step.position);
  }

  [[nodiscard]] std::vector<OpenPoint> told() const {
    std::vector<OpenPoint> told;
    for (auto [step, positions] : points_) {
      std::ranges::sort(positions);
      const auto& joint = *step->joint->state->joint;
      std::string text =
          fmt::format("{}: pass {} {}", record::write_address(joint.code, positions),
                      step->pass_number(), step->stands == Stands::LeftOut ? "left out" : "open");
      if (step->stands == Stands::LeftOut) text += ", " + step->entry->content.skipped_why;
      if (step->joint->stage == plan::Stage::Final) text += ", waits until " + joint.final_when;
      if (const auto& setting = step->planned().setting; setting && step->stands == Stands::Open) {
        text += fmt::format(": {} at {}", setting->wrench->name,
                            quantity::write_exact(quantity::StatedTorque{
                                setting->setting, setting->wrench->scale.unit}));
      }
      told.push_back(
          {joint.code, std::move(text), OpenKind::Pass,
           step->stands == Stands::LeftOut
               ? fmt::format("tighten {} --pass {}", record::write_address(joint.code, positions),
                             step->pass_number())
               : "tighten " + joint.code});
    }
    return told;
  }

 private:
  std::vector<std::pair<const Step*, std::vector<int>>> points_;
};

// Stripes that were found turned, until the final value stands again, and what that takes; the
// stripe that is missing then is told with the others.
void what_has_turned(const Reassembly& reassembly, const finding::JointState& joint,
                     std::vector<OpenPoint>& points) {
  std::vector<int> turned;
  for (const auto& position : joint.positions) {
    const auto& code = joint.joint->code;
    if (reassembly.progress.finish_of(code, position.position).turned != nullptr &&
        !reassembly.progress.has_final_value(code, position.position)) {
      turned.push_back(position.position);
    }
  }
  if (turned.empty()) return;
  points.push_back({joint.joint->code,
                    fmt::format("{}: final stripe found turned; {}",
                                record::write_address(joint.joint->code, turned), kAfterATurn),
                    OpenKind::StripeTurned, "tighten " + joint.joint->code});
}

// A second turn on top would be too much for what was stretched once already.
void what_is_spent(const Reassembly& reassembly, const finding::JointState& joint,
                   std::vector<OpenPoint>& points) {
  const auto& code = joint.joint->code;
  std::vector<int> spent;
  for (const auto& position : joint.positions) {
    if (reassembly.progress.spent_by(code, position.position) != nullptr) {
      spent.push_back(position.position);
    }
  }
  if (spent.empty()) return;
  const auto where = record::write_address(code, spent);
  points.push_back(
      {code,
       fmt::format("{}: one-time, and turned by the angle already (line {}): take out, "
                   "then fit and tighten new ones",
                   where, reassembly.progress.spent_by(code, spent.front())->stamp.line),
       OpenKind::Spent, "out " + where});
}

// All positions of the line with this number.
template <class Entries>
std::vector<int> positions_in_line(const Entries& entries, std::int64_t line) {
  for (const auto& entry : entries) {
    if (entry.stamp.line == line) return entry.content.positions;
  }
  return {};
}

// Without a reading nobody can tell when the look by a counter falls due.
void what_was_not_read(const Reassembly& reassembly, record::Moment now,
                       std::vector<OpenPoint>& points) {
  std::set<std::int64_t> told;
  for (const auto& due :
       due_rechecks(reassembly.job, reassembly.survey, reassembly.progress, now, std::nullopt)) {
    if (!due.after || due.due_reading) continue;
    if (!std::holds_alternative<record::RunningAmount>(due.after->after)) continue;
    const auto line = due.since->line;
    if (!told.insert(line).second) continue;
    const auto positions = due.since_stripe ? positions_in_line(reassembly.job.stripes, line)
                                            : positions_in_line(reassembly.job.rechecks, line);
    points.push_back(
        {due.joint->code,
         fmt::format(
             "{}: counter reading missing at the {} (line {}), from which the look after {} "
             "counts{}",
             record::write_address(due.joint->code, due.positions),
             due.since_stripe ? "final stripe" : "last look", line, record::length_text(*due.after),
             reading_to_fill_in(*due.joint)),
         OpenKind::CounterReading,
         command_to_add_reading(*due.joint, due.since_stripe ? "stripe" : "recheck", positions,
                                line)});
  }
}

// What was slackened and of which nothing tells what was seen.
void what_was_not_told(const Reassembly& reassembly, const finding::JointState& joint,
                       std::vector<OpenPoint>& points) {
  const auto& code = joint.joint->code;
  for (const auto& position : joint.positions) {
    const auto* slackened = slackened_unseen(reassembly.progress, code, position.position);
    if (slackened == nullptr) continue;
    points.push_back({code,
                      fmt::format("{}: tell what was seen of thread, face and seat: {}",
                                  record::write_address(code, position.position),
                                  tell_what_was_seen(*slackened)),
                      OpenKind::NotTold, tell_what_was_seen(*slackened)});
  }
}

// What comes after the passes, for a joint that has been begun at all.
void after_the_passes(const Reassembly& reassembly, const finding::JointState& joint,
                      std::vector<OpenPoint>& points) {
  const auto count = count_of(reassembly, joint);
  const auto& code = joint.joint->code;
  const auto where_not = [&](auto&& is_there) {
    std::vector<int> positions;
    for (const auto& position : joint.positions) {
      const int number = position.position;
      if (reassembly.progress.steps_of(code, number).empty()) continue;
      if (!is_there(reassembly.progress.finish_of(code, number))) positions.push_back(number);
    }
    return positions;
  };
  if (joint.joint->critical && count.checked < count.planned) {
    points.push_back({code,
                      fmt::format("{}: {} of {} positions not checked by a second person", code,
                                  count.planned - count.checked, count.planned),
                      OpenKind::SecondPerson,
                      fmt::format("tighten {} --check --by WHO",
                                  record::write_address(code, where_not([](const Finish& finish) {
                                                          return finish.second_check != nullptr;
                                                        })))});
  }
  if (count.striped < count.planned) {
    points.push_back(
        {code,
         fmt::format("{}: {} of {} final stripes missing{}", code, count.planned - count.striped,
                     count.planned, reading_to_fill_in(*joint.joint)),
         OpenKind::Stripe, stripe_command(*joint.joint, where_not([](const Finish& finish) {
           return finish.stripe != nullptr;
         }))});
  }
}

// Somebody decided, after the last of it was recorded, that less is right.
bool is_explained(const record::Job& job, const FluidBalance& fluid) {
  if (!differs(fluid)) return false;
  for (const auto& current : record::current_decisions(job)) {
    const auto& stamp = current.entry->stamp;
    const auto& decided = current.entry->content;
    if (decided.decision == record::Decision::UseAsIs &&
        record::same_deviation_id(decided.deviation, deviation_of(fluid))) {
      const auto is_before = [&](const auto* line) { return line->stamp.id < stamp.id; };
      return std::ranges::all_of(fluid.drained, is_before) &&
             std::ranges::all_of(fluid.filled, is_before);
    }
  }
  return false;
}

void what_is_not_back(const record::Job& job, std::vector<OpenPoint>& points) {
  for (const auto& fluid : fluid_balances(job)) {
    const auto missing = fluid.still_to_go_back;
    if (missing <= quantity::Volume::millilitres(0) || is_explained(job, fluid)) continue;
    points.push_back({"",
                      fmt::format("{}: {} still to go back at least", fluid.fluid,
                                  quantity::write_rounded(missing)),
                      OpenKind::Fluid,
                      fmt::format("fluid {} --filled {}", quantity::quoted(fluid.fluid),
                                  quantity::quoted(quantity::write_rounded(missing)))});
  }
  for (const auto& item : item_counts(job)) {
    if (item.missing() == 0) continue;
    points.push_back({item.item->before,
                      fmt::format("{}: {} of {} {} not back", item.item->code, item.missing(),
                                  item.off, item.item->what),
                      item.item->before.empty() ? OpenKind::Item : OpenKind::ItemBeforeJoint,
                      fmt::format("item {} --back {}", item.item->code, item.missing())});
  }
}

void what_is_to_be_bought(const Reassembly& reassembly, std::vector<OpenPoint>& points) {
  std::map<const finding::JointState*, std::vector<int>> missing;
  std::map<const finding::JointState*, std::vector<int>> old_in;
  for (const auto& renewing : plan::renewal_list(reassembly.job, reassembly.survey)) {
    if (!renewing.is_certain()) continue;
    if (!renewing.has_arrived) {
      missing[renewing.joint].push_back(renewing.position);
    } else if (renewing.old_went_back != nullptr) {
      old_in[renewing.joint].push_back(renewing.position);
    }
  }
  for (const auto& joint : reassembly.survey.joints) {
    const auto& code = joint.joint->code;
    if (const auto found = missing.find(&joint); found != missing.end()) {
      const auto where = record::write_address(code, found->second);
      points.push_back({code, where + ": new fasteners have not arrived", OpenKind::NewFastener,
                        fmt::format("renew {} --arrived", where)});
    }
    if (const auto found = old_in.find(&joint); found != old_in.end()) {
      const auto where = record::write_address(code, found->second);
      points.push_back({code,
                        where + ": the old ones went back in before the new ones had arrived; take "
                                "them out, then fit and tighten the new ones",
                        OpenKind::OldIn, "out " + where});
    }
  }
}

// Closed when all behind it was done, as one leaves a machine: what is shut then keeps nobody from
// anything.
bool is_closed_at_the_end(const record::Job& job, const HoldPointState& state,
                          const std::vector<OpenPoint>& points) {
  return state.last_step != nullptr &&
         state.last_step->content.move == record::HoldPointMove::Closed &&
         !job.tightenings.empty() && std::ranges::none_of(points, [&](const OpenPoint& point) {
           return !point.joint.empty() && guards(*state.point, point.joint);
         });
}

std::vector<OpenPoint> what_is_shut(const record::Job& job, record::Moment now,
                                    const std::vector<OpenPoint>& points) {
  std::vector<OpenPoint> shut;
  for (const auto& state : hold_points(job, now)) {
    if (state.stands == HoldPointState::Stands::Passed) continue;
    if (is_closed_at_the_end(job, state, points)) continue;
    shut.push_back({"", in_words(state), OpenKind::HoldPoint, command_to_open(state)});
  }
  return shut;
}

constexpr std::array kAtTheFastener = {OpenKind::TestUnderWay, OpenKind::Spent,
                                       OpenKind::StripeTurned, OpenKind::Pass,
                                       OpenKind::SecondPerson, OpenKind::Stripe};

bool is_at_the_fastener(const OpenPoint& point) {
  return std::ranges::find(kAtTheFastener, point.kind) != kAtTheFastener.end();
}

// The joints under which, however deep, something is open at a fastener.
class Uncovered {
 public:
  Uncovered(const finding::Survey& survey, const std::vector<OpenPoint>& points) : joints_(survey) {
    for (const auto& point : points) {
      if (is_at_the_fastener(point)) open_.insert(record::folded_code(point.joint));
    }
  }

  // A plan has no circle of covers.
  bool has_open_under(std::string_view code) {
    const auto [known, is_new] = known_.try_emplace(record::folded_code(code), false);
    if (!is_new) return known->second;
    const auto* state = joints_.find(code);
    if (state == nullptr) return false;
    const bool has = std::ranges::any_of(state->joint->covers, [&](const std::string& covered) {
      return open_.contains(record::folded_code(covered)) || has_open_under(covered);
    });
    known_[record::folded_code(code)] = has;
    return has;
  }

 private:
  finding::JointIndex joints_;
  std::set<std::string> open_;         // folded codes
  std::map<std::string, bool> known_;  // by folded code
};

// A cover waits for what is open under it.
void covers_wait(const Reassembly& reassembly, std::vector<OpenPoint>& points) {
  Uncovered uncovered(reassembly.survey, points);
  for (auto& point : points) {
    if (point.kind == OpenKind::Pass && uncovered.has_open_under(point.joint)) {
      point.command.clear();
    }
  }
}

// What a joint lacks that cannot be reached has its cover opened first.
void open_covers_first(const Reassembly& reassembly, record::Moment now,
                       std::vector<OpenPoint>& points) {
  const CoverTimes covers(reassembly.job, reassembly.survey,
                          plan::Decided(reassembly.job, reassembly.survey));
  for (auto& point : points) {
    if (!is_at_the_fastener(point)) continue;
    const auto on = covers.over(point.joint, now);
    if (on.empty()) continue;
    point.says += fmt::format("; {}, which covers it, is on", on.front().cover->joint->code);
    point.command = covers.command_to_open(point.joint, now);
  }
}

// Once a position is tightened its test cannot be gone on with.
void what_is_under_way(const record::Job& job, std::vector<OpenPoint>& points) {
  for (const auto& [place, teardown] : teardown_of(job)) {
    if (teardown.pulls.empty()) continue;
    const auto& code = teardown.pulls.front()->content.joint;
    const auto where = record::write_address(code, place.second);
    points.push_back({code,
                      fmt::format("{0}: its found-torque test is under way, bench {0}", where),
                      OpenKind::TestUnderWay, "bench " + where});
  }
}

}  // namespace

std::vector<JointCount> joint_counts(const Reassembly& reassembly) {
  std::vector<JointCount> counts;
  for (const auto& joint : reassembly.survey.joints) {
    counts.push_back(count_of(reassembly, joint));
  }
  return counts;
}

std::vector<BagCount> bag_counts(const Reassembly& reassembly) {
  std::map<std::string, BagCount> bags;
  for (const auto& joint : reassembly.survey.joints) {
    for (const auto& position : joint.positions) {
      if (!came_out(position) || position.removal->content.bag.empty()) continue;
      auto& bag = bags[position.removal->content.bag];
      bag.bag = position.removal->content.bag;
      ++bag.out;
      if (reassembly.progress.has_final_value(joint.joint->code, position.position)) ++bag.back;
    }
  }
  std::vector<BagCount> counts;
  counts.reserve(bags.size());
  for (auto& [name, bag] : bags) counts.push_back(std::move(bag));
  return counts;
}

std::vector<OpenPoint> open_list(const Reassembly& reassembly, record::Moment now) {
  std::vector<OpenPoint> points;
  what_is_under_way(reassembly.job, points);
  what_is_not_back(reassembly.job, points);
  what_is_to_be_bought(reassembly, points);
  for (const auto& joint : reassembly.survey.joints) what_has_turned(reassembly, joint, points);
  for (const auto& joint : reassembly.survey.joints) what_was_not_told(reassembly, joint, points);
  for (const auto& joint : reassembly.survey.joints) what_is_spent(reassembly, joint, points);
  PassPoints passes;
  for (const auto& step : reassembly.progress.steps()) passes.add(step);
  for (auto& point : passes.told()) points.push_back(std::move(point));
  for (const auto& joint : reassembly.survey.joints) after_the_passes(reassembly, joint, points);
  what_was_not_read(reassembly, now, points);
  covers_wait(reassembly, points);
  open_covers_first(reassembly, now, points);
  auto list = what_is_shut(reassembly.job, now, points);
  std::ranges::move(points, std::back_inserter(list));
  return list;
}

}  // namespace progress
