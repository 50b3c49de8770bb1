// Addresses and whole tests as they are called across a bench.

#include "record/shouted_line.h"

#include <fmt/format.h>

#include "failure/failure.h"
#include "support/catch.h"

namespace shouted_line_test {

using record::KnownNames;
using record::read_shouted_line;
using record::read_spoken_address;

namespace {

const KnownNames kKnown{{"J06", "case-split", "J06-1", "T1"}, {"TW2", "TW-3"}};

std::string spoken(const std::string& text) {
  const auto address = read_spoken_address(text, kKnown);
  return fmt::format("{}/{}", record::folded_code(address.joint),
                     record::write_positions(address.positions));
}

// "joint/position|readings|wrench", or "none".
std::string shouted(const std::string& text) {
  const auto line = read_shouted_line(text, kKnown);
  if (!line) return "none";
  return fmt::format("{}/{}|{}|{}", record::folded_code(line->address.joint),
                     record::write_positions(line->address.positions), line->readings,
                     line->wrench);
}

}  // namespace

TEST_CASE("an address is understood as it is called", "[record]") {
  for (const auto* text : {"J06/03", "J06/3", "J06-03", "J06-3", "j06-03", "J06.3", "J06:3",
                           "J06 3", "J06 03", "  J06-3 ", "J06-3:"}) {
    INFO(text);
    CHECK(spoken(text) == "j06/3");
  }
  CHECK(spoken("case-split-12") == "case-split/12");
  CHECK(spoken("case-split 12") == "case-split/12");
  CHECK(spoken("J06/1-4") == "j06/1-4");
  CHECK(spoken("J06") == "j06/");
  // Where a joint is called so itself, it is meant.
  CHECK(spoken("J06-1") == "j06-1/");
  CHECK(spoken("J06-1-2") == "j06-1/2");
  CHECK(spoken("J06/1") == "j06/1");
  // A joint that is not there is still an address, for the message that names the nearest.
  CHECK(spoken("J99-3") == "j99/3");
}

TEST_CASE("what is no address is refused", "[record]") {
  for (const auto* text : {"", "3", "J06/0", "J06 3 4", "J06/3 x", "J06-0"}) {
    INFO(text);
    CHECK_THROWS_AS(spoken(text), failure::InputError);
  }
}

TEST_CASE("a whole test is understood in one line, however it is spelled", "[record]") {
  const std::string whole = "j06/3|60s 70s 75s 80o|TW2";
  for (const auto* text : {
           "J06-03 60s 70s 75s 80o TW2",
           "J06/3 60s 70s 75s 80o TW2",
           "J06 3 60s 70s 75s 80o TW2",
           "J06.03 60s 70s 75s 80o on TW2",
           "J06 3: 60s 70s 75s 80o TW2",
           "J06-3: 60s 70s 75s 80o with TW2",
           "  J06-03   60s\t70s 75s 80o   TW2  ",
           "J06-03 TW2 60s 70s 75s 80o",
           "J06-03 on TW2 60s 70s 75s 80o",
       }) {
    INFO(text);
    CHECK(shouted(text) == whole);
  }
  CHECK(shouted("j06-03 60S, 70S, 80O tw2") == "j06/3|60S, 70S, 80O|tw2");
  CHECK(shouted("J06-03 60 short 80 on TW2") == "j06/3|60 short 80 on|TW2");
  CHECK(shouted("J06-03 60 short 80 on on TW2") == "j06/3|60 short 80 on|TW2");
  CHECK(shouted("J06-03 60s 80o") == "j06/3|60s 80o|");
  CHECK(shouted("J06-03 60s 6° 80o TW-3") == "j06/3|60s 6° 80o|TW-3");
  CHECK(shouted("case-split-2 20s 25p TW2") == "case-split/2|20s 25p|TW2");
}

TEST_CASE("a wrench that is not in the logbook is still taken for one", "[record]") {
  CHECK(shouted("J06-03 60s 80o TW9") == "j06/3|60s 80o|TW9");
  CHECK(shouted("J06-03 60s 80o on TW9") == "j06/3|60s 80o|TW9");
  // But not what is wrong among the readings: the message is about those then.
  CHECK(shouted("J06-03 60s 80x TW9") == "j06/3|60s 80x TW9|");
}

TEST_CASE("an address alone is no shouted line, and neither is a key", "[record]") {
  for (const auto* text : {"J06-03", "J06", "s", "", "72", "72s", "?"}) {
    INFO(text);
    CHECK(shouted(text) == "none");
  }
}

TEST_CASE("a shouted line is of one fastener", "[record]") {
  CHECK_THROWS_WITH(shouted("J06 60s 70o TW2"), ContainsSubstring("expected one position"));
  CHECK_THROWS_WITH(shouted("J06/1-4 60s 70o TW2"), ContainsSubstring("such as J06-3 60s"));
  CHECK_THROWS_AS(shouted("J06-0 60s 70o"), failure::InputError);
}

}  // namespace shouted_line_test
