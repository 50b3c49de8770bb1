#include "finding/individuals_chart.h"

#include <sstream>

#include "support/catch.h"
#include "support/check_values.h"
#include "support/property.h"

namespace individuals_chart_test {

TEST_CASE("the band of an individuals chart agrees with its check values", "[finding]") {
  for (const auto& row : read_check_values("individuals_chart.csv")) {
    INFO(row.at("values"));
    std::vector<double> values;
    std::istringstream numbers(row.at("values"));
    for (double value = 0.0; numbers >> value;) values.push_back(value);
    const auto chart = finding::individuals_chart(values);
    REQUIRE(chart);
    const double tolerance = std::stod(row.at("tolerance"));
    CHECK_THAT(chart->centre, WithinAbs(std::stod(row.at("centre")), tolerance));
    CHECK_THAT(chart->mean_moving_range,
               WithinAbs(std::stod(row.at("mean_moving_range")), tolerance));
    CHECK_THAT(chart->low, WithinAbs(std::stod(row.at("low")), tolerance));
    CHECK_THAT(chart->high, WithinAbs(std::stod(row.at("high")), tolerance));
  }
}

TEST_CASE("one value has no moving range and no band", "[finding]") {
  CHECK_FALSE(finding::individuals_chart({}));
  CHECK_FALSE(finding::individuals_chart({80.0}));
}

TEST_CASE("the band moves with the values and widens with their scatter", "[finding]") {
  holds_always("for whole numbers, so that nothing is lost in rounding", [] {
    const auto numbers =
        *rc::gen::suchThat(rc::gen::container<std::vector<int>>(rc::gen::inRange(-1000, 1000)),
                           [](const auto& some) { return some.size() >= 2; });
    std::vector<double> values(numbers.begin(), numbers.end());
    const auto chart = *finding::individuals_chart(values);
    for (auto& value : values) value = 2.0 * value + 100.0;
    const auto other = *finding::individuals_chart(values);
    RC_ASSERT(std::abs(other.centre - (2.0 * chart.centre + 100.0)) < 1e-9);
    RC_ASSERT(std::abs((other.high - other.low) - 2.0 * (chart.high - chart.low)) < 1e-9);
  });
}

}  // namespace individuals_chart_test
