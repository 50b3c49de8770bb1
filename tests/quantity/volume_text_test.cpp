#include "quantity/volume_text.h"

#include "support/catch.h"
#include "support/refusal.h"

namespace volume_text_test {

using quantity::read_volume;

TEST_CASE("a volume is read with its unit", "[quantity]") {
  // Source: 1 US gal = 231 in³ with 1 in = 25.4 mm exactly; worked by hand:
  // 231 · 2.54³ cm³ = 3785.411784 mL. GNU units gives the same (checked live below 1e-12 for
  // torque units; these digits from its definitions file, from memory).
  const auto in_ml = [](std::string_view text) { return read_volume(text).in_millilitres(); };
  CHECK(in_ml("850 mL") == 850.0);
  CHECK(in_ml("850ml") == 850.0);
  CHECK(in_ml("12 cl") == 120.0);
  CHECK(in_ml("1,2 L") == 1200.0);
  CHECK(in_ml("1.2 l") == 1200.0);
  CHECK_THAT(in_ml("1 US gal"), WithinRel(231.0 * 2.54 * 2.54 * 2.54, 1e-14));
  CHECK_THAT(in_ml("3.5 us QT"), WithinRel(3.5 * 946.352946, 1e-14));
  CHECK_THAT(in_ml("2 US pt"), WithinRel(in_ml("1 US qt"), 1e-14));
}

TEST_CASE("a volume that may mean two things, or none, is refused", "[quantity]") {
  for (const auto* text : {"1 qt", "2 pt", "1 gal"}) {
    INFO(text);
    CHECK_THROWS_WITH(read_volume(text), ContainsSubstring("imperial"));
  }
  for (const auto* text : {"", "1.2", "L", "0 L", "-1 L", "1e3 mL", "nan L", "1 kg", "1,234 L"}) {
    INFO(text);
    CHECK_THROWS_AS(read_volume(text), failure::InputError);
  }
}

TEST_CASE("a volume is shown in litres from one litre on", "[quantity]") {
  CHECK(quantity::write_rounded(read_volume("850 mL")) == "850 mL");
  CHECK(quantity::write_rounded(read_volume("1 US qt")) == "946.4 mL");
  CHECK(quantity::write_rounded(read_volume("1200 mL")) == "1.2 L");
}

}  // namespace volume_text_test
