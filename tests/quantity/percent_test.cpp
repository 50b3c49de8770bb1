#include "quantity/percent.h"

#include <string>

#include "quantity/number_text.h"
#include "support/catch.h"
#include "support/property.h"
#include "support/refusal.h"

namespace percent_test {

using quantity::Percent;
using quantity::read_percent;
using namespace std::string_view_literals;

TEST_CASE("a percentage is read with or without plus-minus", "[quantity]") {
  for (const auto* text : {"10%", "10 %", "±10%", "± 10 %", "+/-10%", "+/- 10 %", "+-10%", " 10% ",
                           "10,0%", "10\u00A0%"}) {
    INFO(text);
    CHECK(read_percent(text) == Percent::of_hundred(10.0));
  }
  CHECK(read_percent("2.5%").ratio() == 0.025);
  CHECK(Percent::from_ratio(0.25).in_percent() == 25.0);
}

TEST_CASE("what is no percentage above 0 and below 100 is refused", "[quantity]") {
  for (const auto text :
       {""sv,          " "sv,       "10"sv,    "%"sv,
        "0%"sv,        "100%"sv,    "250 %"sv, "-10%"sv,
        "\u221210%"sv, "+10%"sv,    "nan%"sv,  "inf%"sv,
        "1e1%"sv,      "1e400%"sv,  "10%%"sv,  "10% of it"sv,
        "10%\0"sv,     "1\0000%"sv, "±±10%"sv, "±-10%"sv,
        "10 N·m"sv,    "1,234%"sv,  "1 0%"sv,  "0.1234567890123456789012345678901234567890%"sv}) {
    INFO(quantity::quoted(text));
    CHECK_FALSE(refusal_of([&] { return read_percent(text); }).empty());
  }
  CHECK_THAT(refusal_of([] { return read_percent("10"); }), ContainsSubstring("such as 10%"));
}

TEST_CASE("an exactly written percentage reads back", "[quantity]") {
  CHECK(quantity::write_exact(Percent::of_hundred(10.0)) == "10%");
  holds_always("the same percentage comes back", [] {
    const auto percent = Percent::of_hundred(*rc::gen::inRange(1, 10000000) / 100001.0);
    RC_ASSERT(read_percent(quantity::write_exact(percent)) == percent);
  });
}

}  // namespace percent_test
