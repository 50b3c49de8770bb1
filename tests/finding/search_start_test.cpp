#include "finding/search_start.h"

#include "finding/position_search.h"
#include "support/catch.h"
#include "support/job_builder.h"

namespace search_start_test {

using finding::SearchStart;
using quantity::Torque;

namespace {

// A joint of eight at 45 ±5 N·m; the wrench from 10 to 100 N·m by 1 may be off by 4 %.
class Cap {
 public:
  Cap() {
    builder.wrench("TW2", "10..100 N·m");
    builder.joint("J06", 8, "M10", "8.8").specified("J06", "45 ±5 N·m");
  }

  void found(int position, const std::string& readings) {
    builder.found("J06/" + std::to_string(position), readings);
  }

  [[nodiscard]] std::optional<SearchStart> start(int position, double prevailing_nm = 0.0) const {
    const auto survey = finding::survey(builder.job());
    return finding::search_start(survey.joints.front(), test_of(position, prevailing_nm), wrench());
  }

  // What is proposed with no reading yet.
  [[nodiscard]] finding::NextSetting first(int position) const {
    const auto survey = finding::survey(builder.job());
    return std::get<finding::NextSetting>(
        finding::next_setting_at(survey.joints.front(), test_of(position, 0.0), wrench()));
  }

  JobBuilder builder;

 private:
  static record::Measured test_of(int position, double prevailing_nm) {
    record::Measured test;
    test.joint = "J06";
    test.position = position;
    test.wrench = "TW2";
    if (prevailing_nm > 0.0) {
      test.prevailing = quantity::StatedTorque{prevailing_nm, quantity::TorqueUnit::NewtonMetre};
    }
    return test;
  }
  [[nodiscard]] const record::Wrench& wrench() const {
    return builder.job().wrenches.front().content;
  }
};

double in_nm(const std::optional<SearchStart>& start) {
  return start.value().torque.in_newton_metres();
}

}  // namespace

TEST_CASE("with five siblings found at 41 to 50 a search does not begin at 27", "[finding]") {
  Cap cap;
  CHECK_FALSE(cap.start(6));
  CHECK(cap.first(6).setting == 27.0);
  cap.found(1, "39s 41o");
  cap.found(2, "43s 45o");
  cap.found(3, "44s 46o");
  cap.found(4, "45s 47o");
  cap.found(5, "48s 50o");
  // A twelfth below the lowest; by hand 41/(13/12) = 37.85. 0.88 of the median of 46 is 40.48, the
  // low limit of 40 less the wrench's 4 % is 38.4.
  CHECK_THAT(in_nm(cap.start(6)), WithinRel(41.0 * 12.0 / 13.0, 1e-9));
  CHECK(cap.first(6).setting == 37.0);
  CHECK(cap.first(6).why == "below the 41 to 50 N·m that its siblings were found at");
}

TEST_CASE("one sibling alone is given more room", "[finding]") {
  Cap cap;
  cap.found(1, "42s 44o");
  CHECK_THAT(in_nm(cap.start(2)), WithinRel(0.88 * 44.0, 1e-9));
  CHECK(cap.first(2).why == "below the 44 N·m that its sibling was found at");
}

TEST_CASE("a start from siblings stays so low that a mark there at once is low", "[finding]") {
  Cap cap;
  for (int position = 1; position <= 4; ++position) cap.found(position, "47s 49o");
  // 49 would let it begin at 43, inside the tolerance: a looser one would stay undecided there.
  CHECK_THAT(in_nm(cap.start(5)), WithinRel(0.96 * 40.0, 1e-9));
  // Without a specification there is nothing to be low against, and the ceiling still holds.
  Cap open;
  open.builder.joint("J07", 4, "M10", "8.8");
  for (int position = 1; position <= 3; ++position) {
    open.builder.found("J07/" + std::to_string(position), "47s 49o");
  }
  const auto survey = finding::survey(open.builder.job());
  record::Measured test;
  test.joint = "J07";
  test.position = 4;
  CHECK_THAT(in_nm(finding::search_start(survey.joints[1], test,
                                         open.builder.job().wrenches.front().content)),
             WithinRel(0.88 * 49.0, 1e-9));
}

TEST_CASE("a start never passes the ceiling of the search", "[finding]") {
  Cap cap;
  // M4 in 8.8 cannot bear what these were found at; yield holds the search far below.
  cap.builder.joint("J07", 4, "M4", "8.8");
  for (int position = 1; position <= 3; ++position) {
    cap.builder.found("J07/" + std::to_string(position), "38s 40o");
  }
  const auto survey = finding::survey(cap.builder.job());
  record::Measured test;
  test.joint = "J07";
  test.position = 4;
  test.wrench = "TW2";
  auto wrench = cap.builder.job().wrenches.front().content;
  wrench.scale.low = 1.0;
  const auto ceiling = finding::ceiling_at(survey.joints[1], test).value().torque;
  const auto proposal = finding::next_setting_at(survey.joints[1], test, wrench);
  const auto* next = std::get_if<finding::NextSetting>(&proposal);
  REQUIRE(next != nullptr);
  CHECK(Torque::newton_metres(next->setting) <= ceiling);
}

TEST_CASE("only sound findings of those tightened alike are followed", "[finding]") {
  Cap cap;
  cap.builder.specified("J06", "20 N·m");
  cap.builder.last_specified().positions = {7, 8};
  cap.found(7, "18s 19o");
  cap.found(1, "42s");      // a bound
  cap.found(2, "30s 44p");  // ±19 %, grade C
  CHECK_FALSE(cap.start(3));
  cap.found(4, "42s 44o");
  CHECK_THAT(in_nm(cap.start(3)), WithinRel(0.88 * 44.0, 1e-9));
  CHECK_THAT(in_nm(cap.start(8)), WithinRel(0.88 * 19.0, 1e-9));
}

TEST_CASE("what it takes to run a fastener is exchanged for that of the sibling", "[finding]") {
  Cap cap;
  cap.found(1, "46s 48o");
  cap.builder.last_finding().prevailing =
      quantity::StatedTorque{4.0, quantity::TorqueUnit::NewtonMetre};
  CHECK_THAT(in_nm(cap.start(2)), WithinRel(0.88 * 44.0, 1e-9));
  CHECK_THAT(in_nm(cap.start(2, 2.0)), WithinRel(0.88 * 46.0, 1e-9));
}

TEST_CASE("where the mark was there at once the next test begins at two thirds of it",
          "[finding]") {
  Cap cap;
  for (int position = 1; position <= 3; ++position) cap.found(position, "43s 45o");
  cap.found(4, "39p");
  CHECK_THAT(in_nm(cap.start(4)), WithinRel(26.0, 1e-9));
  CHECK(cap.first(4).setting == 26.0);
  CHECK(cap.first(4).why == "the mark was there at once at 39 N·m before: two thirds of that");
}

}  // namespace search_start_test
