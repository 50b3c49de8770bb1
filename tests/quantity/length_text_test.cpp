#include "quantity/length_text.h"

#include <cmath>
#include <string>

#include "quantity/number_text.h"
#include "support/catch.h"
#include "support/property.h"
#include "support/refusal.h"

namespace length_text_test {

using quantity::Length;
using quantity::read_length;
using namespace std::string_view_literals;

TEST_CASE("a length is read with its unit", "[quantity]") {
  // Source: 1 in = 25.4 mm exactly (international inch, 1959); the products worked by hand.
  const auto in_mm = [](std::string_view text) { return read_length(text).in_millimetres(); };
  CHECK(in_mm("90mm") == 90.0);
  CHECK(in_mm("90 MM") == 90.0);
  CHECK(in_mm("3,5 mm") == 3.5);
  CHECK(in_mm("12 cm") == 120.0);
  CHECK(in_mm("0.5 m") == 500.0);
  for (const auto* text : {"1.5in", "1.5 In", "1.5\"", "1.5″", "1.5”", "1.5 inch", "1.5 inches",
                           "1 1/2 in", "1-1/2\"", "3/2 in"}) {
    INFO(text);
    CHECK_THAT(in_mm(text), WithinRel(38.1, 1e-15));
  }
  CHECK_THAT(in_mm("3/8in"), WithinRel(9.525, 1e-15));
  CHECK_THAT(in_mm(" 27/64 in "), WithinRel(10.715625, 1e-15));
}

TEST_CASE("what is no length is refused", "[quantity]") {
  for (const auto text : {""sv,           " "sv,
                          "90"sv,         "3/8"sv,
                          "mm"sv,         "0 mm"sv,
                          "-5 mm"sv,      "\u22125 mm"sv,
                          "nan mm"sv,     "inf mm"sv,
                          "1e3 mm"sv,     "1e400 mm"sv,
                          "1/0 in"sv,     "0/8 in"sv,
                          "1/2/3 in"sv,   "/8 in"sv,
                          "1 / in"sv,     "1/2.5 in"sv,
                          "90 N·m"sv,     "90 km"sv,
                          "90 mm x"sv,    "90 mm\0"sv,
                          "9\0000 mm"sv,  "1,234 mm"sv,
                          "1 234 mm"sv,   "1'234 mm"sv,
                          "1.234,5 mm"sv, "1234567890123456789012345678901234567890 mm"sv}) {
    INFO(quantity::quoted(text));
    CHECK_FALSE(refusal_of([&] { return read_length(text); }).empty());
  }
  CHECK_THAT(refusal_of([] { return read_length("90"); }), ContainsSubstring("with its unit"));
}

TEST_CASE("a length over 10 m is a slip", "[quantity]") {
  CHECK(read_length("10 m") == Length::millimetres(10'000.0));
  for (const auto* text : {"10.001 m", "90000 mm", "400 in", "1000 1/2 in"}) {
    INFO(text);
    CHECK_THAT(refusal_of([&] { return read_length(text); }), ContainsSubstring("at most 10 m"));
  }
}

TEST_CASE("an exactly written length reads back", "[quantity]") {
  CHECK(quantity::write_exact(Length::millimetres(90.0)) == "90 mm");
  CHECK(quantity::write_exact(Length::inches(0.5)) == "12.7 mm");
  holds_always("the same length comes back", [] {
    const auto mantissa = *rc::gen::inRange<std::int64_t>(1, std::int64_t{1} << 53);
    // Up to 2^13 mm, below the 10 m that a length may have.
    const auto length =
        Length::millimetres(std::ldexp(static_cast<double>(mantissa), *rc::gen::inRange(-60, -39)));
    RC_ASSERT(read_length(quantity::write_exact(length)) == length);
  });
}

}  // namespace length_text_test
