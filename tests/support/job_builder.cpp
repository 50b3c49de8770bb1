#include "support/job_builder.h"

#include <fmt/format.h>

#include "record/address.h"

JobBuilder::JobBuilder() { job_.start.machine = "GB-1"; }

record::Stamp JobBuilder::next_stamp() {
  ++lines_;
  const auto now = record::read_moment("2026-06-01T08:00:00Z") + std::chrono::minutes(lines_);
  return {fmt::format("01970000-0000-7000-8000-{:012}", lines_),
          lines_,
          "KB",
          now,
          now,
          "00000000-0000-4000-8000-000000000001"};
}

JobBuilder& JobBuilder::wrench(const std::string& name, const std::string& scale,
                               const std::string& graduation, const std::string& calibrated) {
  record::Wrench wrench;
  wrench.name = name;
  wrench.scale = record::read_scale(scale);
  wrench.graduation = record::read_graduation(graduation, wrench.scale);
  if (!calibrated.empty()) wrench.calibrated = record::read_day(calibrated);
  job_.wrenches.push_back({next_stamp(), wrench});
  return *this;
}

JobBuilder& JobBuilder::joint(const std::string& code, int count, const std::string& size,
                              const std::string& grade) {
  record::Joint joint;
  joint.code = code;
  joint.holds = "cover";
  joint.size = size;
  joint.length = quantity::Length::millimetres(90);
  joint.grade = grade;
  joint.count = count;
  job_.joints.push_back({next_stamp(), joint});
  return *this;
}

JobBuilder& JobBuilder::specified(const std::string& code, const std::string& text,
                                  const std::string& source, fastener::Condition condition) {
  job_.specifications.push_back(
      {next_stamp(), {code, text, record::read_specification(text), source, condition}});
  return *this;
}

JobBuilder& JobBuilder::out(const std::string& address, record::BreakLoose broke) {
  auto where = record::read_address(address);
  record::Removal removal;
  removal.joint = where.joint;
  removal.positions = std::move(where.positions);
  removal.broke = broke;
  job_.removals.push_back({next_stamp(), removal});
  return *this;
}

JobBuilder& JobBuilder::found(const std::string& address, const std::string& readings,
                              const std::string& wrench) {
  const auto where = record::read_address(address);
  record::Measured measured;
  measured.joint = where.joint;
  measured.position = where.positions.at(0);
  measured.wrench = wrench;
  if (const auto* tool = record::wrench_in(job_, wrench)) measured.unit = tool->scale.unit;
  measured.readings = record::read_readings(readings, std::nullopt);
  job_.findings.push_back({next_stamp(), measured});
  return *this;
}

JobBuilder& JobBuilder::pulled(const std::string& address, const std::string& reading) {
  const auto where = record::read_address(address);
  record::Pull pull;
  pull.joint = where.joint;
  pull.position = where.positions.at(0);
  pull.wrench = "TW2";
  pull.reading = record::read_readings(reading, std::nullopt).at(0);
  pull.typed = reading;
  job_.pulls.push_back({next_stamp(), pull});
  return *this;
}

JobBuilder& JobBuilder::tightened(const std::string& address, int pass, double target_nm,
                                  double setting, const std::string& by) {
  auto where = record::read_address_in_order(address);
  record::Tightening tightening;
  tightening.joint = where.joint;
  tightening.positions = std::move(where.positions);
  tightening.in_order = where.in_order;
  tightening.pass = pass;
  tightening.target = {record::PassKind::Torque, quantity::Torque::newton_metres(target_nm),
                       std::nullopt};
  tightening.wrench = "TW2";
  tightening.setting = setting;
  job_.tightenings.push_back({next_stamp(), tightening});
  job_.tightenings.back().stamp.by = by;
  return *this;
}

namespace {

std::optional<record::RunningAmount> noted(const std::string& counter) {
  if (counter.empty()) return std::nullopt;
  return record::read_running_amount(counter);
}

}  // namespace

JobBuilder& JobBuilder::slackened(const std::string& address) {
  tightened(address, 1, 0, 0);
  auto& tightening = last_tightening();
  tightening.target = {record::PassKind::Loosen, std::nullopt, std::nullopt};
  tightening.seen = "thread and seat clean";
  tightening.wrench.clear();
  tightening.setting.reset();
  return *this;
}

JobBuilder& JobBuilder::striped(const std::string& address, const std::string& counter) {
  auto where = record::read_address(address);
  job_.stripes.push_back(
      {next_stamp(), {where.joint, std::move(where.positions), true, noted(counter)}});
  return *this;
}

JobBuilder& JobBuilder::rechecked(const std::string& address, double turned,
                                  const std::string& counter) {
  auto where = record::read_address(address);
  record::Recheck recheck{where.joint, std::move(where.positions), std::nullopt, noted(counter)};
  if (turned > 0.0) recheck.turned = quantity::Angle::degrees(turned);
  job_.rechecks.push_back({next_stamp(), recheck});
  return *this;
}

JobBuilder& JobBuilder::renewed(const std::string& address) {
  auto where = record::read_address(address);
  job_.renewals.push_back({next_stamp(), {where.joint, std::move(where.positions)}});
  return *this;
}

JobBuilder& JobBuilder::decided(const std::string& deviation, const std::string& joint,
                                std::optional<int> position, record::Decision decision,
                                const std::string& done) {
  record::Disposition disposition;
  disposition.deviation = deviation;
  disposition.joint = joint;
  disposition.position = position;
  disposition.decision = decision;
  disposition.reason = "looked at";
  disposition.done = done;
  job_.dispositions.push_back({next_stamp(), disposition});
  return *this;
}
