#include "record/stated_order.h"

#include <sstream>
#include <string>
#include <vector>

#include "failure/failure.h"
#include "record/makers_order.h"
#include "support/catch.h"
#include "support/check_values.h"

namespace stated_order_test {

using Order = std::vector<int>;

namespace {

Order order_in(const std::string& cell) {
  Order order;
  std::istringstream numbers(cell);
  for (std::string number; std::getline(numbers, number, '-');) order.push_back(std::stoi(number));
  return order;
}

}  // namespace

TEST_CASE("a published pattern is given by name for its own count only", "[record]") {
  // Source: sequences.csv Q014, US Army TB 9-3950-253-13&P (seen).
  for (const auto& row : read_check_values("sequences.csv")) {
    if (row.at("id") != "Q014") continue;
    CHECK(record::published_pattern("army-circular", 12).order ==
          order_in(row.at("order_by_position")));
  }
  CHECK_THAT(std::string(record::published_pattern("army-circular", 12).source),
             ContainsSubstring("TB 9-3950"));
  CHECK_THROWS_WITH(record::published_pattern("army-circular", 8),
                    ContainsSubstring("printed for 12 positions and this joint has 8"));
  CHECK_THROWS_WITH(record::published_pattern("spiral", 8),
                    ContainsSubstring("army-circular, army-straight"));
}

TEST_CASE("a maker's own order has to name every position once", "[record]") {
  const auto stated = record::read_stated_order("1, 4,2 3", 4);
  CHECK(stated.positions == Order{1, 4, 2, 3});
  CHECK(stated.pattern == nullptr);
  const auto is_refused = [](const std::string& text, const std::string& because) {
    INFO(text);
    CHECK_THROWS_AS(record::read_makers_order(text, 4), failure::InputError);
    CHECK_THROWS_WITH(record::read_makers_order(text, 4), ContainsSubstring(because));
  };
  is_refused("1,3,2", "missing: 4");
  is_refused("1,3,2,3", "missing: 4; more than once: 3");
  is_refused("1,3,2,4,1", "(more than once: 1)");
  is_refused("", "missing: 1, 2, 3, 4");
  is_refused("1,3,2,5", "whole number from 1 to 4");
  is_refused("1,3,two,4", "whole number from 1 to 4");
  is_refused("1-3-2-4", "a dash could mean a range");
  CHECK_THROWS_WITH(record::read_makers_order("1", 40),
                    ContainsSubstring("2, 3, 4, 5, 6, 7, 8, 9, 10, 11 and 29 more"));
}

TEST_CASE("what begins with a letter is a pattern by its name", "[record]") {
  const auto stated = record::read_stated_order("army-straight", 9);
  REQUIRE(stated.pattern != nullptr);
  CHECK(stated.pattern->name == "army-straight");
  CHECK(stated.positions == stated.pattern->order);
  CHECK_THROWS_AS(record::read_stated_order("army-straight", 8), failure::InputError);
}

}  // namespace stated_order_test
