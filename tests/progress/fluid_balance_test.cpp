#include "progress/fluid_balance.h"

#include <fmt/format.h>

#include <cstdlib>

#include "quantity/volume_text.h"
#include "support/property.h"

namespace fluid_balance_test {

using record::FluidMove;

namespace {

struct Pour {
  const char* fluid;
  FluidMove move;
  std::string amount;
};

std::vector<progress::FluidBalance> balances_of(const std::vector<Pour>& pours) {
  static record::Job job;
  job = {};
  for (const auto& pour : pours) {
    job.fluids.push_back(
        {{}, {pour.fluid, pour.move, quantity::read_volume(pour.amount), pour.amount, ""}});
  }
  return progress::fluid_balances(job);
}

}  // namespace

TEST_CASE("what was drained has to go back at least", "[progress]") {
  // Source: 1 US qt = 946.352946 mL exactly (NIST SP 811).
  const auto balances = balances_of({{"gear oil", FluidMove::Drained, "1.2 L"},
                                     {"coolant", FluidMove::Drained, "1 L"},
                                     {"Gear Oil", FluidMove::Drained, "1.5 US qt"},
                                     {"gear oil", FluidMove::Filled, "2 L"}});
  REQUIRE(balances.size() == 2);
  CHECK(balances[0].fluid == "gear oil");
  CHECK(balances[0].drained.size() == 2);
  CHECK_THAT(balances[0].sum_drained.in_millilitres(), WithinRel(2619.529419, 1e-15));
  CHECK_THAT(balances[0].still_to_go_back.in_millilitres(), WithinRel(619.529419, 1e-12));
  CHECK(balances[1].still_to_go_back == quantity::Volume::millilitres(1000));
  CHECK(progress::balance_of(balances, "COOLANT") == &balances[1]);
  CHECK(progress::balance_of(balances, "brake fluid") == nullptr);
}

TEST_CASE("what was in before any came out counts for nothing of what goes back", "[progress]") {
  record::Job job;
  const auto pour = [&](FluidMove move, const std::string& amount, int minute) {
    record::Stamp stamp;
    stamp.done_at += std::chrono::minutes(minute);
    job.fluids.push_back({stamp, {"oil", move, quantity::read_volume(amount), amount, ""}});
  };
  pour(FluidMove::Drained, "2 L", 20);
  pour(FluidMove::Filled, "2 L", 10);
  const auto before = progress::fluid_balances(job).at(0);
  CHECK(before.filled.empty());
  CHECK(before.filled_before.size() == 1);
  CHECK(before.still_to_go_back == quantity::Volume::millilitres(2000));
  pour(FluidMove::Filled, "2 L", 20);  // of one moment nobody knows which was first
  const auto after = progress::fluid_balances(job).at(0);
  CHECK(after.filled.size() == 1);
  CHECK(after.still_to_go_back == quantity::Volume::millilitres(0));
  CHECK(after.more_than_came_out == quantity::Volume::millilitres(0));
}

TEST_CASE("more may go in than came out", "[progress]") {
  const auto balances =
      balances_of({{"oil", FluidMove::Drained, "1.2 L"}, {"oil", FluidMove::Filled, "1300 mL"}});
  CHECK(balances[0].still_to_go_back == quantity::Volume::millilitres(0));
  CHECK_THAT(balances[0].more_than_came_out.in_millilitres(), WithinRel(100.0, 1e-12));
}

TEST_CASE("the same amounts in any units and order leave nothing open", "[progress]") {
  holds_always("drained in parts, filled in parts", [] {
    const auto parts = *rc::gen::container<std::vector<int>>(10, rc::gen::inRange(1, 5000));
    std::vector<Pour> pours;
    for (const int part : parts) {
      const auto [whole, hundredths] = std::div(part, 100);
      pours.push_back(
          {"oil", FluidMove::Drained, fmt::format("{}.{:02} US qt", whole, hundredths)});
      // A quart is two pints, a quarter of a gallon, and so on for the decimals of each.
      const auto doubled = std::div(2 * part, 100);
      pours.insert(pours.begin(), {"oil", FluidMove::Filled,
                                   fmt::format("{}.{:02} US pt", doubled.quot, doubled.rem)});
    }
    const auto balance = balances_of(pours).at(0);
    RC_ASSERT(balance.still_to_go_back == quantity::Volume::millilitres(0));
    RC_ASSERT(balance.more_than_came_out == quantity::Volume::millilitres(0));
  });
}

}  // namespace fluid_balance_test
