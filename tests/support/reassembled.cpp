#include "support/reassembled.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <numeric>

#include "plan/reassembly_plan.h"

namespace {

template <class Content>
std::int64_t last_line(const std::vector<record::Entry<Content>>& entries) {
  std::int64_t last = 0;
  for (const auto& entry : entries) last = std::max(last, entry.stamp.line);
  return last;
}

// Where no wrench of the plan fits, the torque itself is set.
record::Tightening tightening_for(const plan::PlannedJoint& joint, std::size_t pass, int position) {
  const auto& planned = joint.passes[pass];
  record::Tightening tightening;
  tightening.joint = joint.state->joint->code;
  tightening.positions = {position};
  tightening.pass = planned.number;
  tightening.target = plan::target_of(planned.pass);
  if (planned.setting) {
    tightening.wrench = planned.setting->wrench->name;
    tightening.setting = planned.setting->setting;
    tightening.unit = planned.setting->wrench->scale.unit;
  }
  if (planned.pass.kind == record::PassKind::Angle) tightening.turned = planned.pass.angle;
  return tightening;
}

std::vector<int> all_positions(const record::Joint& joint) {
  std::vector<int> positions(static_cast<std::size_t>(joint.count));
  std::iota(positions.begin(), positions.end(), 1);
  return positions;
}

// The passes that come last for some positions, and these: those with a torque of their own part
// from the others.
std::map<std::size_t, std::vector<int>> last_passes(const plan::PlannedJoint& joint) {
  std::map<int, std::size_t> last;
  for (std::size_t pass = 0; pass < joint.passes.size(); ++pass) {
    for (const int position : joint.passes[pass].order) last[position] = pass;
  }
  std::map<std::size_t, std::vector<int>> passes;
  for (const auto& [position, pass] : last) passes[pass].push_back(position);
  return passes;
}

}  // namespace

record::Stamp next_stamp(const record::Job& job, record::Moment at, const std::string& by) {
  const auto line =
      1 + std::max({last_line(job.wrenches), last_line(job.joints), last_line(job.specifications),
                    last_line(job.removals), last_line(job.findings), last_line(job.hold_points),
                    last_line(job.hold_point_steps), last_line(job.renewals),
                    last_line(job.tightenings), last_line(job.stripes), last_line(job.rechecks),
                    last_line(job.items), last_line(job.item_returns), last_line(job.dispositions),
                    last_line(job.pulls), last_line(job.fluids)});
  return {fmt::format("01970000-0000-7000-8000-{:012}", line),
          line,
          by,
          at,
          at,
          "00000000-0000-4000-8000-000000000001"};
}

void reassemble_in_part(record::Job& job, record::Moment at, double share) {
  const auto survey = finding::survey(job);
  std::vector<const finding::JointState*> joints;
  for (const auto& joint : survey.joints) joints.push_back(&joint);
  const auto plan = plan::reassembly_plan(job, survey, joints, record::local_day(at));

  std::size_t steps = 0;
  for (const auto& joint : plan.joints) {
    for (const auto& pass : joint.passes) steps += pass.order.size();
  }
  auto left = static_cast<std::size_t>(share * static_cast<double>(steps));
  auto line = next_stamp(job, at).line;
  const auto stamp = [&](const std::string& by) {
    at += std::chrono::minutes(1);
    return record::Stamp{fmt::format("01970000-0000-7000-8000-{:012}", line),
                         line++,
                         by,
                         at,
                         at,
                         "00000000-0000-4000-8000-000000000001"};
  };
  for (const auto& joint : plan.joints) {
    for (std::size_t pass = 0; pass < joint.passes.size(); ++pass) {
      for (const int position : joint.passes[pass].order) {
        if (left == 0) return;
        --left;
        job.tightenings.push_back({stamp("KB"), tightening_for(joint, pass, position)});
      }
    }
    if (joint.is_left_open()) continue;
    const auto& content = *joint.state->joint;
    if (content.critical) {
      for (auto& [pass, positions] : last_passes(joint)) {
        auto check = tightening_for(joint, pass, positions.front());
        check.positions = std::move(positions);
        check.second_check = true;
        job.tightenings.push_back({stamp("LM"), check});
      }
    }
    job.stripes.push_back({stamp("KB"), {content.code, all_positions(content), true, {}}});
  }
}

void reassemble(record::Job& job, record::Moment at) { reassemble_in_part(job, at, 1.0); }
