#include "audit/audit.h"
#include "audit/rules.h"
#include "finding/plausibility.h"
#include "quantity/length_text.h"
#include "support/catch.h"
#include "support/job_builder.h"

namespace plausibility_rules_test {

namespace {

// A job of one joint of M8 8.8, invented.
class M8Joint {
 public:
  M8Joint() { job_.wrench("TW1", "5..200 N·m", "0.5 N·m").joint("J01", 2, "M8x1.25"); }

  M8Joint& specify(const std::string& text) {
    job_.specified("J01", text, "GB-1 Shop Manual rev C p. 12", fastener::Condition::Oiled);
    return *this;
  }

  M8Joint& length(const std::string& text) {
    job_.last_joint().length = quantity::read_length(text);
    return *this;
  }

  M8Joint& parts(const std::string& into, double engaged_mm, const std::string& seat) {
    job_.last_joint().into = into;
    job_.last_joint().engaged = quantity::Length::millimetres(engaged_mm);
    job_.last_joint().seat = seat;
    return *this;
  }

  // Both, in the last pass of two, or in the only one that nothing is specified for.
  M8Joint& tighten(double setting) {
    const bool is_specified = !job_.job().specifications.empty();
    job_.out("J01/1-2");
    if (is_specified) job_.tightened("J01/1-2", 1, 25.0, setting);
    if (!is_specified) job_.tightened("J01/1-2", 1, 0.0, setting);
    job_.last_tightening().wrench = "TW1";
    if (!is_specified) job_.last_tightening().target.torque.reset();
    return *this;
  }
  M8Joint& is_now(const std::string& size, const std::string& grade) {
    job_.last_joint().size = size;
    job_.last_joint().grade = grade;
    return *this;
  }

  M8Joint& find(const std::string& readings,
                std::optional<quantity::StatedTorque> prevailing = std::nullopt) {
    job_.found("J01/1", readings, "TW1");
    job_.last_finding().prevailing = prevailing;
    return *this;
  }

  [[nodiscard]] std::vector<audit::Deviation> flagged(const audit::Rule& rule) const {
    const auto survey = finding::survey(job_.job());
    auto all = audit::run({job_.job(), survey, record::read_moment("2026-06-02T08:00:00Z")});
    std::erase_if(all.deviations,
                  [&](const auto& deviation) { return deviation.rule != rule.name; });
    return all.deviations;
  }

  [[nodiscard]] double yields_at_nm(fastener::Condition condition = fastener::Condition::Oiled) {
    return finding::bolt_limits(job_.last_joint(), condition)->yields_at.in_newton_metres();
  }

 private:
  JobBuilder job_;
};

}  // namespace

TEST_CASE("a specification that the bolt cannot carry is flagged, the near miss is not",
          "[audit]") {
  const auto flagged = M8Joint().specify("160 N·m").flagged(audit::kImplausible);
  REQUIRE(flagged.size() == 1);
  CHECK(flagged[0].id == "implausible:J01");
  CHECK(flagged[0].level == audit::Level::Hold);
  CHECK_THAT(flagged[0].says, ContainsSubstring("6 times its proof torque"));

  CHECK(M8Joint().flagged(audit::kImplausible).empty());
  CHECK(M8Joint().specify("25 N·m").flagged(audit::kImplausible).empty());
  const int limit = static_cast<int>(M8Joint().yields_at_nm());
  CHECK(M8Joint().specify(std::to_string(limit) + " N·m").flagged(audit::kImplausible).empty());
  CHECK(M8Joint().specify(std::to_string(limit + 1) + " N·m").flagged(audit::kImplausible).size() ==
        1);
  const auto little = M8Joint().specify("1 N·m").flagged(audit::kImplausible);
  REQUIRE(little.size() == 1);
  CHECK(little[0].level == audit::Level::Check);  // it clamps nothing, and breaks nothing
}

TEST_CASE("what was tightened past the yield of the bolt that is entered now is a hold",
          "[audit]") {
  // M8 8.8 at 25 N·m, and then the joint is put right as M6 5.6: by the program's own limits (their
  // check values are in tests/fastener) 25 N·m yields it whatever the friction.
  const auto as = [](const std::string& size, const std::string& grade) {
    M8Joint job;
    job.specify("25 N·m").tighten(25.0).is_now(size, grade);
    return job.flagged(audit::kTightenedPastYield);
  };
  CHECK(as("M8x1.25", "8.8").empty());
  CHECK(as("M8x1.25", "10.9").empty());
  const auto smaller = as("M6x1", "5.6");
  REQUIRE(smaller.size() == 1);
  CHECK(smaller[0].level == audit::Level::Hold);
  CHECK(smaller[0].positions == std::vector<int>{1, 2});
  CHECK_THAT(smaller[0].says, ContainsSubstring("tightened it to 25 N·m; M6 5.6 yields at"));

  // Without a specification nothing else tells it, and just below the yield nothing is said.
  const double limit = M8Joint().yields_at_nm(fastener::Condition::AsReceived);
  CHECK(M8Joint().tighten(limit - 0.1).flagged(audit::kTightenedPastYield).empty());
  CHECK(M8Joint().tighten(limit + 0.1).flagged(audit::kTightenedPastYield).size() == 1);
  // What is above its specification over-torqued tells alone.
  const auto beyond = M8Joint().specify("25 N·m").tighten(limit + 1.0);
  CHECK(beyond.flagged(audit::kTightenedPastYield).empty());
  CHECK(beyond.flagged(audit::kOverTorqued).size() == 1);
}

TEST_CASE("an angle out of reason for the length is flagged, the near miss is not", "[audit]") {
  // M8 8.8 of 90 mm: 90° after 10 N·m is what procedures ask for, 9° after 2 N·m clamps nothing,
  // and 1000° is 3.5 mm of travel on 90 mm, where 2 % of lasting stretch are 1.8 mm.
  CHECK(M8Joint().specify("10 N·m, +90°").flagged(audit::kImplausible).empty());
  const auto far = M8Joint().length("90mm").specify("10 N·m, +1000°").flagged(audit::kImplausible);
  REQUIRE(far.size() == 1);
  CHECK_THAT(far[0].says, ContainsSubstring("stretches it further than it should bear"));
  CHECK(M8Joint().length("90mm").specify("10 N·m, +90°").flagged(audit::kImplausible).empty());
  const auto little = M8Joint().length("90mm").specify("2 N·m, +9°").flagged(audit::kImplausible);
  REQUIRE(little.size() == 1);
  CHECK_THAT(little[0].says, ContainsSubstring("hardly clamps"));
}

TEST_CASE("a bolt found beyond its yield is not to be used again", "[audit]") {
  const auto flagged = M8Joint().find("60s 61o 62p").flagged(audit::kOverstretched);
  REQUIRE(flagged.size() == 1);
  CHECK(flagged[0].id == "overstretched:J01/01");
  CHECK(flagged[0].level == audit::Level::Hold);
  CHECK(flagged[0].position == 1);
  CHECK(M8Joint().find("60s 61s").flagged(audit::kOverstretched).size() == 1);
}

TEST_CASE("a finding that only may be beyond yield is not flagged", "[audit]") {
  CHECK(M8Joint().find("24s 25o 26p").flagged(audit::kOverstretched).empty());
  // Only an upper bound: the torque may be anywhere below.
  CHECK(M8Joint().find("61o").flagged(audit::kOverstretched).empty());
  // The estimate lies above the limit, its lower end does not.
  auto oiled = M8Joint().specify("25 N·m");
  const double limit = oiled.yields_at_nm();
  const auto just_above = static_cast<int>(limit) + 1;
  CHECK(oiled.find(std::to_string(just_above - 1) + "s " + std::to_string(just_above) + "o")
            .flagged(audit::kOverstretched)
            .empty());
  // The same beyond its uncertainty; then with a running torque that takes it back below.
  const auto well_above = static_cast<int>(limit * 1.15);
  const auto readings = std::to_string(well_above - 1) + "s " + std::to_string(well_above) + "o";
  CHECK(M8Joint().specify("25 N·m").find(readings).flagged(audit::kOverstretched).size() == 1);
  CHECK(M8Joint()
            .specify("25 N·m")
            .find(readings, quantity::StatedTorque{10, quantity::TorqueUnit::NewtonMetre})
            .flagged(audit::kOverstretched)
            .empty());
}

TEST_CASE("a thread that strips at the specified torque is flagged, the near miss is not",
          "[audit]") {
  // tests/finding/part_check_test.cpp: EN AC-46000 holds 2.826 kN for each mm, 25 N·m oiled pulls
  // 26.5 kN where the friction is low.
  const auto in_aluminium = [](double engaged_mm) {
    return M8Joint()
        .parts("EN AC-46000", engaged_mm, "")
        .specify("25 N·m")
        .flagged(audit::kThreadStrips);
  };
  const auto flagged = in_aluminium(9.0);
  REQUIRE(flagged.size() == 1);
  CHECK(flagged[0].id == "thread-strips:J01");
  CHECK(flagged[0].level == audit::Level::Check);
  CHECK_THAT(flagged[0].says, ContainsSubstring("strips where the friction is low"));
  CHECK(in_aluminium(10.0).empty());
  // It strips before the bolt yields, but not at this torque: `joint` says so, the audit does not.
  CHECK(M8Joint()
            .parts("EN AC-46000", 8.0, "")
            .specify("15 N·m")
            .flagged(audit::kThreadStrips)
            .empty());
}

TEST_CASE("a head that presses into its seat is flagged, the near miss is not", "[audit]") {
  const auto on = [](const std::string& seat) {
    return M8Joint().parts("", 8.0, seat).specify("25 N·m").flagged(audit::kHeadPressesIn);
  };
  const auto flagged = on("EN AC-46000");
  REQUIRE(flagged.size() == 1);
  CHECK(flagged[0].id == "head-presses-in:J01");
  CHECK_THAT(flagged[0].says, ContainsSubstring("the seat bears 290 MPa"));
  CHECK(on("GJL-250").empty());
}

}  // namespace plausibility_rules_test
