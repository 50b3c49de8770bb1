#include "record/address.h"

#include <algorithm>
#include <set>

#include "failure/failure.h"
#include "support/catch.h"
#include "support/property.h"

namespace address_test {

using failure::InputError;

TEST_CASE("an address names a joint and positions as typed", "[record]") {
  CHECK(record::read_address("J06/03").positions == std::vector{3});
  CHECK(record::read_address("J06/1-4").positions == std::vector{1, 2, 3, 4});
  CHECK(record::read_address("J06/1,4,13").positions == std::vector{1, 4, 13});
  CHECK(record::read_address("J06/9,1-3").positions == std::vector{1, 2, 3, 9});
  CHECK(record::read_address(" case-split/2 ").joint == "case-split");
  CHECK(record::read_address("J06").positions.empty());
}

TEST_CASE("positions named one by one have an order, a range has none", "[record]") {
  const auto falling = record::read_address_in_order("J06/4,3,2,1");
  CHECK(falling.positions == std::vector{4, 3, 2, 1});
  CHECK(falling.in_order);
  CHECK(record::read_address_in_order("J06/1,2").in_order);
  const auto ranges = record::read_address_in_order("J06/9,1-3");
  CHECK(ranges.positions == std::vector{1, 2, 3, 9});
  CHECK_FALSE(ranges.in_order);
  CHECK(record::read_address("J06/4,3").positions == std::vector{3, 4});
  CHECK_FALSE(record::read_address("J06/4,3").in_order);
  CHECK_THROWS_WITH(record::read_address_in_order("J06/2,1,2"), ContainsSubstring("twice"));
}

TEST_CASE("an address that cannot be meant is refused", "[record]") {
  for (const auto* text : {"", "/", "/3", "J06/", "J06/0", "J06/-1", "J06/3-", "J06/8-1", "J06/1,1",
                           "J06/1-4,3", "J06/a", "J06/1.5", "6J/1", "J 06/1", "J06/10001",
                           "J06/99999999999", "J06/1,", "J06//1", "J06/1/2"}) {
    INFO(text);
    CHECK_THROWS_AS(record::read_address(text), InputError);
  }
  CHECK_THROWS_WITH(record::read_address("J06/8-1"), ContainsSubstring("write 1-8"));
  CHECK_THROWS_WITH(record::read_address("J06/1,1"), ContainsSubstring("twice"));
}

TEST_CASE("positions are written with runs drawn together", "[record]") {
  CHECK(record::write_positions({1, 2, 3, 4, 9}) == "1-4,9");
  CHECK(record::write_positions({7}) == "7");
  CHECK(record::write_positions({1, 3, 5}) == "1,3,5");
  CHECK(record::write_address("J06", 3) == "J06/03");
  CHECK(record::write_address("J06", 113) == "J06/113");
  CHECK(record::write_address("J06", {3}) == "J06/03");
  CHECK(record::write_address("J06", {1, 2, 3, 9}) == "J06/1-3,9");
}

TEST_CASE("written positions read back to the same set", "[record]") {
  holds_always("read(write(positions)) == positions", [] {
    const auto any = *rc::gen::suchThat(rc::gen::container<std::set<int>>(rc::gen::inRange(1, 60)),
                                        [](const auto& set) { return !set.empty(); });
    const std::vector<int> positions(any.begin(), any.end());
    RC_ASSERT(record::read_address("J1/" + record::write_positions(positions)).positions ==
              positions);
  });
}

}  // namespace address_test
