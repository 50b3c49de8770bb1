#include "act/known_codes.h"

#include <random>

#include "record/address.h"
#include "record/alike_code.h"
#include "support/catch.h"

namespace {
namespace known_codes_test {

TEST_CASE("A code is told apart from known ones that differ in noughts alone", "[act]") {
  const act::KnownCodes known({"J02", "flange-10", "J2B", "J002"});
  CHECK(known.differs_in_noughts("J2") == "J02");
  CHECK(known.differs_in_noughts("j02") == "J002");
  CHECK(known.differs_in_noughts("FLANGE-010") == "flange-10");
  CHECK(known.differs_in_noughts("J20").empty());
  CHECK(known.differs_in_noughts("J02B") == "J2B");
  CHECK(known.contains("j002"));
  CHECK_FALSE(known.contains("J2"));
  CHECK(act::KnownCodes().differs_in_noughts("J1").empty());
}

TEST_CASE("Of many known codes the same is found as by holding each against it", "[act]") {
  std::mt19937 draw(17);
  const auto some_code = [&] {
    std::string code;
    for (int i = 0; i < 4; ++i) code += "Jj012"[draw() % 5];
    return code;
  };
  std::vector<std::string> codes;
  act::KnownCodes known;
  int alike = 0;
  for (int i = 0; i < 600; ++i) {
    const auto code = some_code();
    std::string first;
    bool is_there = false;
    for (const auto& each : codes) {
      const bool is_same = record::same_code(each, code);
      is_there = is_there || is_same;
      if (first.empty() && !is_same &&
          record::without_noughts(each) == record::without_noughts(code)) {
        first = each;
      }
    }
    INFO(code);
    REQUIRE(known.contains(code) == is_there);
    REQUIRE(known.differs_in_noughts(code) == first);
    alike += first.empty() ? 0 : 1;
    if (is_there) continue;
    codes.push_back(code);
    known.add(code);
  }
  CHECK(alike > 5);
  CHECK(known.all() == codes);
}

}  // namespace known_codes_test
}  // namespace
