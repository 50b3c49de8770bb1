#include "fastener/preload_band.h"

#include <algorithm>
#include <numeric>
#include <vector>

#include "fastener/bearing.h"
#include "fastener/thread_generator.h"
#include "fastener/torque_table.h"
#include "support/published.h"

namespace preload_band_test {

using fastener::Condition;
using fastener::read_thread;
using quantity::Force;
using quantity::Percent;
using quantity::Stress;
using quantity::Torque;

TEST_CASE("least and most preload agree with NASA TM-106943", "[fastener][published]") {
  // Source: torque_tables.csv, Tables I and II of the report: 65 % of Fty on the stress area, +-25
  // % and 5 % relaxation. Whole lbf, rounded; the report takes 0.714 for 0.75/1.05 = 0.71429.
  int checked = 0;
  for (const auto* table : {"TM106943-I", "TM106943-II"}) {
    const auto yield = Stress::kips_per_square_inch(std::string(table) == "TM106943-I" ? 85 : 26);
    for (const auto& row : rows_of_table(table)) {
      INFO(label_of(row));
      const auto nominal = fastener::load_at(yield * 0.65, row.thread);
      const auto band =
          fastener::scattered_preload(nominal, Percent::of_hundred(25), Percent::of_hundred(5));
      const auto preload = row.quantity == "nominal" ? nominal
                           : row.quantity == "least" ? band.low
                                                     : band.high;
      CHECK_PUBLISHED(Published::Seen, row.in_unit(preload),
                      WithinAbs(row.printed.value, 0.5 + 0.002 * row.printed.value));
      ++checked;
    }
  }
  CHECK(checked == 78);
}

TEST_CASE("the preload example of NASA TM-106943 comes out", "[fastener][published]") {
  // Source: TM-106943 text: 1/4-28 A-286, 2011 lbf nominal, 2514 most, 1436 least.
  const auto nominal =
      fastener::load_at(Stress::kips_per_square_inch(85) * 0.65, read_thread("1/4-28"));
  const auto band =
      fastener::scattered_preload(nominal, Percent::of_hundred(25), Percent::of_hundred(5));
  // 0.0364 in² in the report, 0.03637 by formula: 0.1 %.
  CHECK_PUBLISHED(Published::Seen, nominal.in_pounds_force(), WithinAbs(2011, 2.5));
  CHECK_PUBLISHED(Published::Seen, band.high.in_pounds_force(), WithinAbs(2514, 3.0));
  CHECK_PUBLISHED(Published::Seen, band.low.in_pounds_force(), WithinAbs(1436, 2.0));
}

TEST_CASE("measured preloads lie within the scatter of their condition", "[fastener][published]") {
  // Source: Shigley 9th ed. Tables 8-13 and 8-14: 1/2-20 torqued to 90 N·m, preloads in kN with
  // their printed mean and standard deviation.
  struct Sample {
    Condition condition;
    double mean;
    double deviation;
    std::vector<double> preloads;
  };
  const std::vector<Sample> samples = {
      {Condition::Dry, 34.3, 4.91, {23.6, 27.6, 28.0, 29.4, 30.3, 30.7, 32.9, 33.8, 33.8, 33.8,
                                    34.7, 35.6, 35.6, 37.4, 37.8, 37.8, 39.2, 40.0, 40.5, 42.7}},
      {Condition::Oiled, 34.18, 2.88, {30.3, 32.5, 32.5, 32.9, 32.9, 33.8, 34.3, 34.7, 37.4, 40.5}},
  };
  for (const auto& sample : samples) {
    INFO(fastener::name_of(sample.condition));
    const auto count = static_cast<double>(sample.preloads.size());
    const double mean =
        std::accumulate(sample.preloads.begin(), sample.preloads.end(), 0.0) / count;
    double squares = 0.0;
    for (const double preload : sample.preloads) squares += (preload - mean) * (preload - mean);
    CHECK_THAT(mean, WithinAbs(sample.mean, 0.05));
    CHECK_THAT(std::sqrt(squares / (count - 1.0)), WithinAbs(sample.deviation, 0.005));

    const auto band = fastener::scattered_preload(
        Force::newtons(mean * 1000.0), fastener::torque_scatter(sample.condition).value(),
        Percent::of_hundred(0));
    for (const double preload : sample.preloads) {
      CHECK(preload * 1000.0 >= band.low.in_newtons());
      CHECK(preload * 1000.0 <= band.high.in_newtons());
    }
    // Both samples have K = 0.207.
    CHECK_THAT(
        fastener::nut_factor_from_test(Torque::newton_metres(90), quantity::Length::inches(0.5),
                                       Force::newtons(mean * 1000.0)),
        WithinAbs(0.207, 0.0005));
    const auto listed =
        fastener::listed_preload(read_thread("1/2-20"), sample.condition, Torque::newton_metres(90))
            .value();
    for (const auto& found : {listed.preload, listed.one_bolt}) {
      CHECK(found.low.in_newtons() < mean * 1000.0);
      CHECK(found.high.in_newtons() > mean * 1000.0);
    }
  }
}

TEST_CASE("a wider friction band is a wider preload band", "[fastener]") {
  holds_always("low friction makes the high preload, and the middle lies between", [] {
    const auto thread = *rc::gen::arbitrary<fastener::Thread>();
    const auto condition = *rc::gen::elementOf(std::vector<Condition>{
        Condition::Dry, Condition::Oiled, Condition::AntiSeize, Condition::AsReceived});
    const auto torque = Torque::newton_metres(*rc::gen::inRange(1, 2000));
    const auto friction = fastener::friction_band(condition, fastener::BoltMetal::Steel).value();
    const auto bearing = fastener::usual_bearing_diameter(thread);
    const auto band = fastener::preload_band(thread, bearing, friction, torque);
    auto wider = friction;
    wider.low = fastener::Friction::same(friction.low.thread() * 0.9);
    wider.high = fastener::Friction::same(friction.high.thread() * 1.1);
    const auto wider_band = fastener::preload_band(thread, bearing, wider, torque);
    RC_ASSERT(band.low < band.high);
    RC_ASSERT(wider_band.low < band.low);
    RC_ASSERT(wider_band.high > band.high);
  });
  for (const auto metal : {fastener::BoltMetal::Steel, fastener::BoltMetal::Stainless}) {
    CHECK_FALSE(fastener::friction_band(Condition::Threadlocker, metal).has_value());
  }
  CHECK_FALSE(fastener::torque_scatter(Condition::Threadlocker).has_value());
}

}  // namespace preload_band_test
