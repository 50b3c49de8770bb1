#include "random_job.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "support/reassembled.h"

namespace {

struct Bolt {
  const char* size;
  int torque_nm;
  const char* wrench;
};
// Torques that the dry and the oiled bolt of class 8.8 can carry, and a wrench for each.
constexpr Bolt kBolts[] = {
    {"M8x1.25", 25, "TW2"}, {"M10x1.5", 49, "TW2"}, {"M12x1.75", 80, "TW2"}, {"M16x2", 200, "TW4"}};

const record::Moment kStart = record::read_moment("2026-06-01T08:00:00Z");

record::Wrench wrench(const std::string& name, const std::string& scale, double graduation) {
  record::Wrench wrench;
  wrench.name = name;
  wrench.scale = record::read_scale(scale);
  wrench.graduation = graduation;
  wrench.accuracy = quantity::Percent::of_hundred(3.0);
  wrench.calibrated = record::read_day("2026-03-02");
  return wrench;
}

std::string random_specification(Dice& dice, int torque_nm) {
  switch (dice.whole(0, 5)) {
    case 0:
      return fmt::format("{} N·m ±12%", torque_nm);
    case 1:
      return fmt::format("{}-{} N·m", torque_nm * 0.89, torque_nm * 1.11);
    case 2:
      return fmt::format("{} N·m, {} N·m", torque_nm * 0.5, torque_nm);
    case 3:
      return fmt::format("{} N·m, +60° (55-65)", torque_nm * 0.75);
    default:
      return fmt::format("{} N·m", torque_nm);
  }
}

// Writes the lines of a job a minute apart.
class Writer {
 public:
  explicit Writer(record::Job& job) : job_(job), at_(kStart) {}

  template <class Content>
  void add(std::vector<record::Entry<Content>>& entries, Content content) {
    at_ += std::chrono::minutes(1);
    entries.push_back({next_stamp(job_, at_), std::move(content)});
  }
  void wait(std::chrono::minutes time) { at_ += time; }

 private:
  record::Job& job_;
  record::Moment at_;
};

record::Measured finding_at(const record::Joint& joint, int position, const Bolt& bolt,
                            double torque_nm) {
  record::Measured measured;
  measured.joint = joint.code;
  measured.position = position;
  measured.wrench = bolt.wrench;
  const double on = std::round(torque_nm * 10.0) / 10.0;
  const double short_of = std::round(torque_nm * 9.8) / 10.0;
  const double past = std::round(torque_nm * 10.2) / 10.0;
  measured.readings = {{short_of, record::Mark::Short, {}},
                       {on, record::Mark::On, {}},
                       {past, record::Mark::Past, {}}};
  return measured;
}

// One joint as it is invented: what bolt, and the torque of each position.
struct Planned {
  const Bolt* bolt = nullptr;
  std::vector<double> torques_nm;
};

void write_joint(record::Job& job, Writer& writer, Dice& dice, int number, const Bolt& bolt) {
  record::Joint joint;
  joint.code = fmt::format("J{:02}", number);
  joint.holds = "cover";
  joint.size = bolt.size;
  joint.length = quantity::Length::millimetres(30 + 10 * number);
  joint.grade = "8.8";
  joint.count = dice.whole(3, 12);
  joint.critical = dice.yes(0.3);
  if (dice.yes(0.5)) {
    joint.into = "E295";
    joint.engaged = quantity::Length::millimetres(2.0 * std::stod(joint.size.substr(1)));
    joint.seat = "34CrNiMo6";
  }
  // Earlier joints come out first and go back last.
  if (number > 1 && dice.yes(0.5)) {
    job.joints[static_cast<std::size_t>(dice.whole(0, number - 2))].content.after.push_back(
        joint.code);
  }
  writer.add(job.joints, joint);
  const auto typed = random_specification(dice, bolt.torque_nm);
  writer.add(job.specifications,
             {joint.code, typed, record::read_specification(typed), "GB-1 Shop Manual rev C p. 12",
              dice.yes(0.5) ? fastener::Condition::Dry : fastener::Condition::Oiled});
}

// Another torque for the first positions of the joint written last.
void write_own_torque(record::Job& job, Writer& writer, Dice& dice, Planned& planned) {
  const auto& joint = job.joints.back().content;
  auto specified = job.specifications.back().content;
  if (record::has_angle_step(specified.procedure)) return;
  const double torque_nm = 0.6 * planned.bolt->torque_nm;
  specified.typed = fmt::format("{:.0f} N·m", torque_nm);
  specified.procedure = record::read_specification(specified.typed);
  for (int position = 1; position <= dice.whole(1, joint.count - 1); ++position) {
    specified.positions.push_back(position);
    planned.torques_nm[static_cast<std::size_t>(position) - 1] = std::round(torque_nm);
  }
  writer.add(job.specifications, std::move(specified));
}

void take_apart(record::Job& job, Writer& writer, Dice& dice, const record::Joint& joint,
                const Planned& planned) {
  // One-time bolts that are tightened by angle are not tested.
  const bool is_left_alone =
      joint.one_time && std::ranges::any_of(job.specifications, [&](const auto& entry) {
        return entry.content.joint == joint.code && record::has_angle_step(entry.content.procedure);
      });
  const double share_found = is_left_alone ? 0.0 : dice.real(0.0, 1.4);
  for (int position = 1; position <= joint.count; ++position) {
    if (!dice.yes(share_found)) continue;
    const double torque_nm = planned.torques_nm[static_cast<std::size_t>(position) - 1];
    writer.add(job.findings,
               finding_at(joint, position, *planned.bolt, torque_nm * dice.real(0.98, 1.02)));
  }
  record::Removal removal;
  removal.joint = joint.code;
  removal.positions.resize(static_cast<std::size_t>(joint.count));
  std::iota(removal.positions.begin(), removal.positions.end(), 1);
  removal.bag = "A" + joint.code.substr(1);
  writer.add(job.removals, removal);
  if (joint.one_time) writer.add(job.renewals, {joint.code, removal.positions});
}

void start_job(record::Job& job, Writer& writer) {
  job.start.machine = "GB-1";
  writer.add(job.wrenches, wrench("TW1", "2..20 N·m", 0.2));
  writer.add(job.wrenches, wrench("TW2", "10..400 N·m", 0.5));
  writer.add(job.wrenches, wrench("TW4", "80..900 N·m", 2.0));

  writer.add(job.hold_points,
             {"HV", "store discharged", record::SpanOfTime{std::chrono::minutes(10)}, {}});
  writer.add(job.hold_point_steps, {"HV", record::HoldPointMove::Begun, ""});
  writer.wait(std::chrono::minutes(15));
  writer.add(job.hold_point_steps, {"HV", record::HoldPointMove::Passed, "0 V"});
}

void put_back(record::Job& job, Dice& dice, Stage stage, record::Moment at) {
  if (stage == Stage::Closed) reassemble(job, at);
  if (stage == Stage::BeingClosed) reassemble_in_part(job, at, dice.real(0.0, 1.0));
}

}  // namespace

record::Moment audit_moment() { return record::read_moment("2026-12-01T08:00:00Z"); }

record::Job random_job(Dice& dice, Stage stage) {
  record::Job job;
  Writer writer(job);
  start_job(job, writer);
  const int joints = dice.whole(2, 5);
  for (int number = 1; number <= joints; ++number) {
    const Bolt& bolt = dice.one_of(kBolts);
    write_joint(job, writer, dice, number, bolt);
    const auto& joint = job.joints.back().content;
    const std::vector<double> torques(static_cast<std::size_t>(joint.count), bolt.torque_nm);
    take_apart(job, writer, dice, joint, {&bolt, torques});
  }
  put_back(job, dice, stage, kStart + std::chrono::days(10));
  return job;
}

record::Job uneven_job(Dice& dice, Stage stage) {
  record::Job job;
  Writer writer(job);
  start_job(job, writer);
  std::vector<Planned> planned;
  const int joints = dice.whole(2, 5);
  for (int number = 1; number <= joints; ++number) {
    const Bolt& bolt = dice.one_of(kBolts);
    write_joint(job, writer, dice, number, bolt);
    auto& joint = job.joints.back().content;
    joint.one_time = dice.yes(0.3);
    const auto count = static_cast<std::size_t>(joint.count);
    planned.push_back({&bolt, std::vector<double>(count, bolt.torque_nm)});
    if (dice.yes(0.5)) write_own_torque(job, writer, dice, planned.back());
    take_apart(job, writer, dice, joint, planned.back());
  }
  auto back = kStart + std::chrono::days(10);
  if (dice.yes(0.5)) {
    reassemble(job, back);
    writer.wait(std::chrono::days(60));
    for (std::size_t i = 0; i < planned.size(); ++i) {
      take_apart(job, writer, dice, job.joints[i].content, planned[i]);
    }
    back += std::chrono::days(80);
  }
  put_back(job, dice, stage, back);
  return job;
}
