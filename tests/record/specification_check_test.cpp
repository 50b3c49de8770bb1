#include "record/specification_check.h"

#include "support/catch.h"
#include "support/refusal.h"

namespace specification_check_test {

using record::check_specification;
using record::read_specification;

namespace {

std::string refused(const std::string& text) {
  return refusal_of([&] { check_specification(read_specification(text)); });
}

}  // namespace

TEST_CASE("a specification that would leave the fastener slack is not entered", "[record]") {
  CHECK_THAT(refused("40 N·m, loosen"), ContainsSubstring("would leave the fastener slack"));
  CHECK_THAT(refused("40 N·m, +90°, loosen"), ContainsSubstring("ends in \"loosen\""));
  CHECK_NOTHROW(check_specification(read_specification("40 N·m, loosen, 40 N·m, +90°")));
  CHECK_NOTHROW(check_specification(read_specification("50 N·m, loosen 90°")));
}

TEST_CASE("a minimum beside a maximum is answered with the range", "[record]") {
  CHECK_THAT(refused("min 90 N·m, max 100 N·m"), ContainsSubstring("write 90-100 N·m"));
  CHECK_THAT(refused("max 100 N·m, min 90 N·m"), ContainsSubstring("write 90-100 N·m"));
  CHECK_THAT(refused("40 N·m, min 90 N·m, max 100 N·m"), ContainsSubstring("write 90-100 N·m"));
  CHECK_THAT(refused("min 9 kgf·m, max 100 N·m"), ContainsSubstring("write 9-10.197"));
  // What can be read stays readable, so that an entry of before is no damage.
  CHECK_NOTHROW(read_specification("min 90 N·m, max 100 N·m"));
  CHECK_NOTHROW(check_specification(read_specification("max 60 N·m, loosen, min 90 N·m")));
  CHECK_NOTHROW(check_specification(read_specification("max 80 N·m, min 90 N·m")));
  CHECK_NOTHROW(check_specification(read_specification("min 60 N·m, min 90 N·m")));
}

}  // namespace specification_check_test
