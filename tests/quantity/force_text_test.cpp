#include "quantity/force_text.h"

#include "failure/failure.h"
#include "support/property.h"

namespace force_text_test {

using quantity::read_force;

TEST_CASE("a force is read in its units", "[quantity]") {
  CHECK(read_force("31.2 kN").in_newtons() == 31'200.0);
  CHECK(read_force(" 31200N ").in_newtons() == 31'200.0);
  CHECK(read_force("31,2 kn").in_newtons() == 31'200.0);
  // 1 lbf = 4.4482216152605 N (units.csv).
  CHECK_THAT(read_force("7 kip").in_newtons(), WithinRel(7000 * 4.4482216152605, 1e-12));
  CHECK_THAT(read_force("7000 lbf").in_pounds_force(), WithinRel(7000.0, 1e-12));
}

TEST_CASE("what is no force is refused", "[quantity]") {
  for (const auto* text : {"", "30", "kN", "0 kN", "-3 kN", "30 kg", "30 N·m", "1000000 kN"}) {
    INFO(text);
    CHECK_THROWS_AS(read_force(text), failure::InputError);
  }
  holds_always("any bytes are a force or refused", [] {
    try {
      RC_ASSERT(read_force(*rc::gen::arbitrary<std::string>()) > quantity::Force::newtons(0));
    } catch (const failure::InputError&) {
    }
  });
}

}  // namespace force_text_test
