#include "progress/open_list.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "progress/hold_point_state.h"
#include "record/address.h"

namespace progress {
namespace {

using Stands = Step::Stands;

bool came_out(const finding::PositionState& position) {
  return position.removal != nullptr &&
         position.removal->content.broke != record::BreakLoose::Empty;
}

JointCount count_of(const Reassembly& reassembly, const finding::JointState& joint) {
  JointCount count;
  count.joint = &joint;
  for (const auto& position : joint.positions) {
    const auto& code = joint.joint->code;
    const auto finish = reassembly.progress.finish_of(code, position.position);
    if (came_out(position)) ++count.out;
    if (reassembly.progress.has_final_value(code, position.position)) ++count.final_value;
    if (finish.stripe != nullptr) ++count.striped;
    if (finish.second_check != nullptr) ++count.checked;
  }
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
          fmt::format("{}/{}: pass {} {}", joint.code, record::write_positions(positions),
                      step->pass_number(), step->stands == Stands::LeftOut ? "left out" : "open");
      if (step->stands == Stands::LeftOut) text += ", " + step->entry->content.skipped_why;
      told.push_back({joint.code, std::move(text)});
    }
    return told;
  }

 private:
  std::vector<std::pair<const Step*, std::vector<int>>> points_;
};

// What comes after the passes, for a joint that has been begun at all.
void after_the_passes(const Reassembly& reassembly, const finding::JointState& joint,
                      std::vector<OpenPoint>& points) {
  const auto count = count_of(reassembly, joint);
  const auto& code = joint.joint->code;
  if (joint.joint->critical && count.checked < joint.joint->count) {
    points.push_back(
        {code, fmt::format("{}: {} of {} positions not checked by a second person", code,
                           joint.joint->count - count.checked, joint.joint->count)});
  }
  if (count.striped < joint.joint->count) {
    points.push_back({code, fmt::format("{}: {} of {} final stripes missing", code,
                                        joint.joint->count - count.striped, joint.joint->count)});
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
  for (auto& [name, bag] : bags) counts.push_back(std::move(bag));
  return counts;
}

std::vector<OpenPoint> open_list(const Reassembly& reassembly, record::Moment now) {
  std::vector<OpenPoint> points;
  for (const auto& state : hold_points(reassembly.job, now)) {
    if (state.stands != HoldPointState::Stands::Passed) points.push_back({"", in_words(state)});
  }
  PassPoints passes;
  for (const auto& step : reassembly.progress.steps()) passes.add(step);
  for (auto& point : passes.told()) points.push_back(std::move(point));
  for (const auto& joint : reassembly.survey.joints) after_the_passes(reassembly, joint, points);
  return points;
}

}  // namespace progress
