#include "finding/drift.h"

#include "support/catch.h"
#include "support/job_builder.h"

namespace drift_test {

namespace {

JobBuilder joint_of_six() {
  return JobBuilder().wrench().joint("J01", 6).specified("J01").out("J01/1-6");
}

// All six found in steps of 2 N·m up to these settings.
JobBuilder found_at(JobBuilder job, const std::vector<int>& settings) {
  for (std::size_t i = 0; i < settings.size(); ++i) {
    const auto address = "J01/" + std::to_string(i + 1);
    job.found(address, std::to_string(settings[i] - 2) + "s " + std::to_string(settings[i]) + "o");
  }
  return job;
}

// The drift between two jobs, which outlive it here.
struct Pair {
  Pair(const JobBuilder& a, const JobBuilder& b)
      : here_job(a.job()),
        there_job(b.job()),
        here(finding::survey(here_job)),
        there(finding::survey(there_job)),
        drift(finding::drift(here, there)) {}
  record::Job here_job;
  record::Job there_job;
  finding::Survey here;
  finding::Survey there;
  finding::Drift drift;
};

}  // namespace

TEST_CASE("joints meet by code, positions by number, and the ratio is this over other",
          "[finding]") {
  const Pair pair(found_at(joint_of_six(), {76, 80, 80, 80}),
                  found_at(joint_of_six(), {80, 80, 100, 80, 80}));
  REQUIRE(pair.drift.joints.size() == 1);
  const auto& joint = pair.drift.joints[0];
  CHECK(joint.alike());
  REQUIRE(joint.rows.size() == 4);
  CHECK(joint.rows[0].ratio == 0.95);
  CHECK(joint.rows[2].ratio == 0.8);
  CHECK(joint.median == 0.975);  // of 0.8, 0.95, 1, 1
  CHECK(joint.in_one == std::vector{5});
  CHECK_FALSE(pair.drift.band);  // four ratios make none
  CHECK(pair.drift.charted == 4);
}

TEST_CASE("a fastener that went its own way stands outside the band", "[finding]") {
  // Worked by hand: ratios 1 1 1 1 1 0.5 of six have ranges 0 0 0 0 0.5, mean 0.1; centre 0.9167,
  // reach 3 x 0.1 / 1.128 = 0.2660, so 0.6507 to 1.1826.
  const Pair pair(found_at(joint_of_six(), {80, 80, 80, 80, 80, 40}),
                  found_at(joint_of_six(), {80, 80, 80, 80, 80, 80}));
  REQUIRE(pair.drift.band);
  CHECK_THAT(pair.drift.band->low, WithinAbs(0.6507, 0.0001));
  CHECK_THAT(pair.drift.band->high, WithinAbs(1.1826, 0.0001));
  const auto& rows = pair.drift.joints[0].rows;
  CHECK(rows[5].outside);
  CHECK_FALSE(rows[0].outside);
}

TEST_CASE("a shift of the whole machine moves the centre and puts nothing outside", "[finding]") {
  const Pair pair(found_at(joint_of_six(), {60, 61, 60, 59, 60, 60}),
                  found_at(joint_of_six(), {80, 80, 80, 80, 80, 80}));
  CHECK_THAT(pair.drift.band->centre, WithinAbs(0.75, 0.001));
  for (const auto& row : pair.drift.joints[0].rows) CHECK_FALSE(row.outside);
}

TEST_CASE("joints that are not alike are named, shown and kept out of the band", "[finding]") {
  const auto differs = [](JobBuilder other) {
    const Pair pair(found_at(joint_of_six(), {80, 80, 80, 80, 80, 40}),
                    found_at(std::move(other), {80, 80, 80, 80, 80, 80}));
    const auto& joint = pair.drift.joints[0];
    CHECK(joint.rows.size() == 6);
    CHECK(pair.drift.charted == 0);
    CHECK_FALSE(pair.drift.band);
    CHECK_FALSE(joint.rows[5].outside);
    REQUIRE(joint.differs.size() == 1);
    return joint.differs[0];
  };
  auto longer = joint_of_six();
  longer.last_joint().length = quantity::Length::millimetres(100);
  CHECK(differs(longer) == "length 90 mm here, 100 mm there");
  auto other_size = joint_of_six();
  other_size.last_joint().size = "M12x1.25";
  CHECK(differs(other_size) == "size M12x1.75 here, M12x1.25 there");
  auto other_grade = joint_of_six();
  other_grade.last_joint().grade = "10.9";
  CHECK(differs(other_grade) == "grade 8.8 here, 10.9 there");
  CHECK(differs(joint_of_six().specified("J01", "85 N·m")) ==
        "specification 80 N·m here, 85 N·m there");
  CHECK(differs(joint_of_six().specified("J01", "80 N·m", "p. 1", fastener::Condition::Oiled)) ==
        "condition dry here, oiled there");
}

TEST_CASE("bounds and what is no evidence are not compared", "[finding]") {
  auto here = joint_of_six().found("J01/1", "60s 70s").found("J01/2", "78s 80o");
  auto there = joint_of_six().found("J01/1", "78s 80o").found("J01/2", "78s 80o");
  there.found("J01/3", "80o");
  const Pair pair(here, there);
  REQUIRE(pair.drift.joints[0].rows.size() == 1);
  CHECK(pair.drift.joints[0].rows[0].position == 2);
  CHECK(pair.drift.joints[0].in_one == std::vector{1});
}

TEST_CASE("joints of one logbook alone are told", "[finding]") {
  const Pair pair(joint_of_six().joint("J02"), joint_of_six().joint("J03"));
  REQUIRE(pair.drift.only_here.size() == 1);
  CHECK(pair.drift.only_here[0]->joint->code == "J02");
  REQUIRE(pair.drift.only_there.size() == 1);
  CHECK(pair.drift.only_there[0]->joint->code == "J03");
  CHECK_FALSE(pair.drift.joints[0].median);
}

TEST_CASE("one large change shows by E_n even where it widens the band it stands in", "[finding]") {
  // Worked by hand after ISO 13528 (from memory): 80 with U 2 √(4/3 + 3.41333 + 2.56) = 5.40617 and
  // 100 with U 2 √(4/3 + 5.33333 + 4) = 6.53197: E_n = -20/√(5.40617² + 6.53197²) = -2.35877.
  const auto here = joint_of_six().found("J01/1", "60s 78s 80o 82p").found("J01/2", "78s 80o 82p");
  const auto there = joint_of_six().found("J01/1", "98s 100o 102p").found("J01/2", "78s 80o 82p");
  const Pair pair(here, there);
  const auto& rows = pair.drift.joints[0].rows;
  REQUIRE(rows.size() == 2);
  CHECK_FALSE(pair.drift.band);
  CHECK_THAT(rows[0].e_n, WithinAbs(-2.35877, 1e-5));
  CHECK(rows[0].changed);
  CHECK(rows[1].e_n == 0.0);
  CHECK_FALSE(rows[1].changed);
}

}  // namespace drift_test
