#include "plan/wrench_choice.h"
#include "support/property.h"

namespace wrench_through_adapter_test {

using plan::Aim;
using plan::WrenchChoice;
using quantity::Torque;

namespace {

record::Job job_with(std::initializer_list<record::WrenchScale> scales) {
  record::Job job;
  for (const auto& scale : scales) {
    record::Wrench wrench;
    wrench.name = "TW" + std::to_string(job.wrenches.size() + 1);
    wrench.scale = scale;
    wrench.graduation = 1.0;
    wrench.calibrated = record::read_day("2026-03-02");
    job.wrenches.push_back({{}, wrench});
  }
  return job;
}

Aim aim_at(double low, double nominal, double high) {
  return {Torque::newton_metres(nominal), Torque::newton_metres(low), Torque::newton_metres(high)};
}

const record::Day kDay = record::read_day("2026-06-01");
constexpr auto kNewtonMetre = quantity::TorqueUnit::NewtonMetre;

}  // namespace

TEST_CASE("through an adapter the setting is converted and the torque stays", "[plan]") {
  // Source: US Army TM 9-2350-261-20-1: 40 on the fastener, L = 12 in, E = 4 in: setting 30.
  const auto job = job_with({{20, 200, kNewtonMetre}});
  const auto setting =
      WrenchChoice(job, kDay, 16.0 / 12.0).choose(aim_at(36, 40, 44), nullptr).value();
  CHECK(setting.setting == 30.0);
  CHECK_THAT(setting.applied.in_newton_metres(), WithinAbs(40, 1e-12));
  CHECK(WrenchChoice(job, kDay).choose(aim_at(36, 40, 44), nullptr)->setting == 40.0);
}

TEST_CASE("range counts on the setting, limits on the torque applied", "[plan]") {
  const auto job = job_with({{20, 100, kNewtonMetre}});
  // 120 N·m is above the scale, but with a ratio of 1.5 the setting of 80 is on it.
  CHECK_FALSE(WrenchChoice(job, kDay).choose(aim_at(108, 120, 132), nullptr));
  CHECK(WrenchChoice(job, kDay, 1.5).choose(aim_at(108, 120, 132), nullptr)->setting == 80.0);
  // 25 N·m is on the scale, the setting of 16.7 is not.
  CHECK(WrenchChoice(job, kDay).choose(aim_at(22, 25, 28), nullptr));
  const WrenchChoice through(job, kDay, 1.5);
  CHECK_FALSE(through.choose(aim_at(22, 25, 28), nullptr));
  CHECK_THAT(through.what_is_missing(aim_at(24, 25, 27)),
             ContainsSubstring("25 N·m through the adapter; one covering 16 to 18 N·m is needed"));
  // One graduation mark is 1.5 N·m on the fastener: 60.7 to 61.3 lies between two of them.
  CHECK_FALSE(through.choose(aim_at(60.7, 61, 61.3), nullptr));
  CHECK(WrenchChoice(job, kDay).choose(aim_at(60.7, 61, 61.3), nullptr));
}

TEST_CASE("a chosen setting keeps its limits through any adapter", "[plan]") {
  const auto job = job_with({{5, 50, kNewtonMetre}, {20, 200, kNewtonMetre}});
  holds_always("within the aim, on the scale, on a graduation mark", [&] {
    const double nominal = *rc::gen::inRange(30, 3000) / 10.0;
    const double ratio = *rc::gen::inRange(50, 200) / 100.0;
    const auto aim = aim_at(nominal * 0.95, nominal, nominal * 1.05);
    const auto chosen = WrenchChoice(job, kDay, ratio).choose(aim, nullptr);
    if (!chosen) return;
    RC_ASSERT(chosen->applied >= *aim.low * (1.0 - 1e-9));
    RC_ASSERT(chosen->applied <= *aim.high * (1.0 + 1e-9));
    RC_ASSERT(record::in_range(*chosen->wrench, chosen->setting));
    RC_ASSERT(chosen->setting == std::floor(chosen->setting));
  });
}

}  // namespace wrench_through_adapter_test
