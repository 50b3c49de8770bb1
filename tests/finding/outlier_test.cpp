#include "finding/outlier.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "support/catch.h"
#include "support/check_values.h"
#include "support/property.h"

namespace outlier_test {

using finding::OutlierTest;

TEST_CASE("the modified z-scores are those of a published worked example", "[finding]") {
  const auto rows = read_check_values("modified_z_scores.csv");
  std::vector<double> values;
  for (const auto& row : rows) values.push_back(std::stod(row.at("value")));
  const auto scores = finding::modified_z_scores(values);
  REQUIRE(scores.size() == rows.size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    INFO(rows[i].at("value"));
    // Printed with two digits.
    CHECK_THAT(scores[i], WithinAbs(std::stod(rows[i].at("score")), 0.006));
  }
  const auto apart = finding::outliers(values);
  REQUIRE(apart.size() == 2);
  CHECK(values[apart[0].index] == 14.0);
  CHECK(values[apart[1].index] == 15.0);
}

TEST_CASE("where more than half are the same the mean deviation takes over", "[finding]") {
  // Worked by hand: deviations 0 0 0 0 10, mean 2; 10 / (1.253314 · 2) = 3.989.
  const auto scores = finding::modified_z_scores({80, 80, 80, 80, 90});
  CHECK_THAT(scores[4], WithinAbs(3.989, 0.001));
  CHECK(scores[0] == 0.0);
  CHECK(finding::modified_z_scores({80, 80, 80, 80, 80}) == std::vector<double>(5, 0.0));
}

TEST_CASE("three or four values are held against their median", "[finding]") {
  const auto apart = finding::outliers({80, 82, 60});
  REQUIRE(apart.size() == 1);
  CHECK(apart[0].index == 2);
  CHECK(apart[0].test == OutlierTest::TwentyPercent);
  CHECK_THAT(apart[0].score, WithinAbs(-0.25, 1e-12));
  CHECK(finding::outliers({80, 82, 65}).empty());        // 18.75 %
  CHECK(finding::outliers({60, 60, 100, 100}).empty());  // nobody knows which two are right
  CHECK(finding::outliers({80, 50}).empty());
  CHECK(finding::outliers({80}).empty());
  CHECK(finding::outliers({}).empty());
}

TEST_CASE("scores know neither order nor unit", "[finding]") {
  holds_always("the value that stands apart stays the same one", [] {
    auto values = *rc::gen::container<std::vector<int>>(9, rc::gen::inRange(70, 90));
    std::vector<double> torques(values.begin(), values.end());
    torques.push_back(400.0);
    std::rotate(torques.begin(), torques.begin() + *rc::gen::inRange(0, 10), torques.end());
    const auto apart = finding::outliers(torques);
    RC_ASSERT(std::ranges::count_if(
                  apart, [&](const auto& one) { return torques[one.index] == 400.0; }) == 1);
    std::vector<double> in_other_unit;
    for (const double torque : torques) in_other_unit.push_back(torque * 0.7375621492772654);
    const auto scores = finding::modified_z_scores(torques);
    const auto other = finding::modified_z_scores(in_other_unit);
    for (std::size_t i = 0; i < scores.size(); ++i) {
      RC_ASSERT(std::fabs(scores[i] - other[i]) <= 1e-6 * (1.0 + std::fabs(scores[i])));
    }
  });
}

}  // namespace outlier_test
