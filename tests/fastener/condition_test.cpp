#include "fastener/condition.h"

#include "support/property.h"

namespace condition_test {

using fastener::Condition;
using fastener::read_condition;

TEST_CASE("a condition is read and written by one word", "[fastener]") {
  for (const auto condition : fastener::kConditions) {
    CHECK(read_condition(fastener::name_of(condition)) == condition);
  }
  CHECK(read_condition("Anti Seize") == Condition::AntiSeize);
  CHECK(read_condition("antiseize") == Condition::AntiSeize);
  CHECK(read_condition("AS RECEIVED") == Condition::AsReceived);
  CHECK(read_condition("thread-locker") == Condition::Threadlocker);
  for (const auto* text : {"", "wet", "oil", "dry-ish", "-"}) {
    INFO(text);
    CHECK_FALSE(read_condition(text).has_value());
  }
  holds_always("any bytes are a condition or nothing", [] {
    const auto text = *rc::gen::arbitrary<std::string>();
    if (const auto condition = read_condition(text)) {
      RC_ASSERT(read_condition(fastener::name_of(*condition)) == condition);
    }
  });
}

}  // namespace condition_test
