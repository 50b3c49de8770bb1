#include "fastener/sample.h"

#include <cmath>
#include <string>
#include <vector>

#include "fastener/capability.h"
#include "support/check_values.h"
#include "support/property.h"
#include "support/published.h"

namespace sample_test {

using fastener::capability_of;
using fastener::Sample;
using fastener::sample_of;
using fastener::Shown;

TEST_CASE("measured preloads have their printed mean and deviation", "[fastener][published]") {
  // Source: Shigley 9th ed. Tables 8-13 and 8-14 (seen): 1/2-20 at 90 N·m, kN.
  const std::vector<double> dry = {23.6, 27.6, 28.0, 29.4, 30.3, 30.7, 32.9, 33.8, 33.8, 33.8,
                                   34.7, 35.6, 35.6, 37.4, 37.8, 37.8, 39.2, 40.0, 40.5, 42.7};
  const std::vector<double> oiled = {30.3, 32.5, 32.5, 32.9, 32.9, 33.8, 34.3, 34.7, 37.4, 40.5};
  CHECK_PUBLISHED(Published::Seen, sample_of(dry).mean, WithinAbs(34.3, 0.051));
  CHECK_PUBLISHED(Published::Seen, sample_of(dry).deviation, WithinAbs(4.91, 0.005));
  CHECK_PUBLISHED(Published::Seen, sample_of(oiled).mean, WithinAbs(34.18, 0.005));
  CHECK_PUBLISHED(Published::Seen, sample_of(oiled).deviation, WithinAbs(2.88, 0.005));
  CHECK(sample_of(std::vector<double>{7.0}).deviation == 0.0);
  CHECK_FALSE(fastener::mean_half_width(sample_of(std::vector<double>{7.0})).has_value());
}

TEST_CASE("confidence and tolerance factors agree with the published table",
          "[fastener][published]") {
  // Source: Statistics for Environmental Engineers, Table 21.1 (seen): factors of s for the
  // two-sided 95 % confidence interval of the mean and for tolerance intervals that hold 90, 95 and
  // 99 % with 95 % confidence. Two decimals; the factor by Howe's approximation is up to 2.5 %
  // above the exact one at n = 4 and 99 %.
  struct Row {
    std::size_t n;
    double mean, k90, k95, k99;
  };
  const Row rows[] = {
      {4, 1.59, 5.37, 6.34, 8.22},  {5, 1.24, 4.29, 5.08, 6.60},  {6, 1.05, 3.73, 4.42, 5.76},
      {7, 0.92, 3.39, 4.02, 5.24},  {8, 0.84, 3.16, 3.75, 4.89},  {9, 0.77, 2.99, 3.55, 4.63},
      {10, 0.72, 2.86, 3.39, 4.44}, {12, 0.64, 2.67, 3.17, 4.16}, {20, 0.47, 2.32, 2.76, 3.62},
      {25, 0.41, 2.22, 2.64, 3.46}, {30, 0.37, 2.15, 2.55, 3.35}, {40, 0.32, 2.06, 2.45, 3.22},
      {60, 0.26, 1.96, 2.34, 3.07}};
  for (const auto& row : rows) {
    INFO(row.n);
    const double rough = row.n < 10 ? 0.025 : 0.008;
    CHECK_PUBLISHED(Published::Seen, *fastener::mean_half_width(Sample{row.n, 0.0, 1.0}),
                    WithinAbs(row.mean, 0.0061));
    CHECK_PUBLISHED(Published::Seen, fastener::tolerance_factor(row.n, 0.90, 0.95),
                    WithinAbs(row.k90, 0.006 + rough * row.k90));
    CHECK_PUBLISHED(Published::Seen, fastener::tolerance_factor(row.n, 0.95, 0.95),
                    WithinAbs(row.k95, 0.006 + rough * row.k95));
    CHECK_PUBLISHED(Published::Seen, fastener::tolerance_factor(row.n, 0.99, 0.95),
                    WithinAbs(row.k99, 0.006 + rough * row.k99));
  }
}

TEST_CASE("published capabilities come out", "[fastener][published]") {
  // Source: capabilities.csv, none of which was used to write the formulas; tolerance from the
  // printed digits.
  int checked = 0;
  const auto half_a_digit = [](const std::string& printed) {
    const auto point = printed.find('.');
    return 0.51 * std::pow(10.0, -static_cast<double>(printed.size() - point - 1));
  };
  for (const auto& row : read_check_values("capabilities.csv")) {
    INFO(row.at("of"));
    const auto capability =
        capability_of({static_cast<std::size_t>(std::stoi(row.at("count"))),
                       std::stod(row.at("mean")), std::stod(row.at("deviation"))},
                      {std::stod(row.at("low")), std::stod(row.at("high"))})
            .value();
    for (const auto& [column, ours] : {std::pair{"cp", capability.cp},
                                       {"cpk", capability.cpk},
                                       {"cpk_low", capability.cpk_low}}) {
      const auto& printed = row.at(column);
      if (printed.empty()) continue;
      CHECK_PUBLISHED(published_as(row.at("how_known")), ours,
                      WithinAbs(std::stod(printed), half_a_digit(printed)));
      ++checked;
    }
  }
  CHECK(checked == 10);
}

TEST_CASE("a sample shows, does not show, or needs more tests", "[fastener]") {
  CHECK(capability_of({20, 80.0, 2.0}, {72.0, 88.0})->shown == Shown::Keeps);
  CHECK(capability_of({20, 95.0, 2.0}, {72.0, 88.0})->shown == Shown::Misses);
  const auto few = capability_of({5, 80.0, 2.0}, {72.0, 88.0}).value();
  CHECK(few.shown == Shown::Undecided);
  // k must come down to 4: 3.75 at n = 8, 4.02 at n = 7 in the published table.
  CHECK(few.tests_needed == 8);
  CHECK_FALSE(capability_of({20, 80.0, 6.0}, {72.0, 88.0})->tests_needed.has_value());
  CHECK_FALSE(capability_of({2, 80.0, 2.0}, {72.0, 88.0}).has_value());
  CHECK_FALSE(capability_of({8, 80.0, 0.0}, {72.0, 88.0}).has_value());
}

TEST_CASE("more tests of the same kind never loosen a verdict", "[fastener]") {
  holds_always("the tolerance factor falls with n and lies above the normal quantile", [] {
    const auto n = static_cast<std::size_t>(*rc::gen::inRange(3, 150));
    const double here = fastener::tolerance_factor(n, 0.95, 0.95);
    RC_ASSERT(fastener::tolerance_factor(n + 1, 0.95, 0.95) < here);
    RC_ASSERT(here > 1.9599);
  });
}

}  // namespace sample_test
