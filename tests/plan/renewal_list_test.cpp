#include "plan/renewal_list.h"

#include "support/catch.h"
#include "support/job_builder.h"

namespace renewal_list_test {

using plan::RenewalReason;
using record::BreakLoose;

namespace {

std::vector<plan::Renewing> list_of(const JobBuilder& builder) {
  static record::Job job;
  static finding::Survey survey;
  job = builder.job();
  survey = finding::survey(job);
  return plan::renewal_list(job, survey);
}

JobBuilder one_time() {
  auto builder = JobBuilder().wrench().joint("J10").specified("J10");
  builder.last_joint().one_time = true;
  return builder;
}

}  // namespace

TEST_CASE("every one-time fastener that came out is renewed", "[plan]") {
  CHECK(list_of(one_time()).empty());
  const auto list = list_of(one_time().out("J10/1-3"));
  REQUIRE(list.size() == 3);
  CHECK(list[2].position == 3);
  CHECK(list[0].reasons == std::vector{RenewalReason::OneTime});
  CHECK_FALSE(list[0].has_arrived);
}

TEST_CASE("what sheared, was missing or was another fastener is renewed", "[plan]") {
  const auto reasons = [](BreakLoose broke) {
    return list_of(JobBuilder().joint("J01").out("J01/2", broke)).at(0).reasons;
  };
  CHECK(reasons(BreakLoose::Sheared) == std::vector{RenewalReason::Sheared});
  CHECK(reasons(BreakLoose::Empty) == std::vector{RenewalReason::FoundEmpty});
  CHECK(list_of(JobBuilder().joint("J01").out("J01/2")).empty());
  auto other = JobBuilder().joint("J01").out("J01/2");
  other.last_removal().other_grade = "5.6";
  CHECK(list_of(other).at(0).reasons == std::vector{RenewalReason::OtherFastener});
}

TEST_CASE("two fasteners that only changed places are not bought", "[plan]") {
  auto builder = JobBuilder().joint("J01").joint("J02");
  builder.last_joint().length = quantity::Length::millimetres(50);
  builder.out("J01/1").last_removal().other_length = quantity::Length::millimetres(50);
  CHECK(list_of(builder).size() == 1);
  builder.out("J02/1").last_removal().other_length = quantity::Length::millimetres(90);
  CHECK(list_of(builder).empty());
}

TEST_CASE("what was found past its yield is renewed", "[plan]") {
  // Source: M12x1.75 8.8 yields below 150 N·m at every friction (strength_of, torque tables).
  const auto list = list_of(
      JobBuilder().wrench().joint("J01").specified("J01").out("J01/1").found("J01/1", "180s 190o"));
  REQUIRE(list.size() == 1);
  CHECK(list[0].reasons == std::vector{RenewalReason::Overstretched});
  CHECK(list_of(JobBuilder().wrench().joint("J01").specified("J01").out("J01/1").found("J01/1",
                                                                                       "75s 80o"))
            .empty());
}

TEST_CASE("new ones that the specification fits between its passes are bought", "[plan]") {
  const auto list = list_of(JobBuilder()
                                .wrench()
                                .joint("J01")
                                .specified("J01", "50 N·m, new bolts, 80 N·m")
                                .out("J01/1"));
  REQUIRE(list.size() == 1);
  CHECK(list[0].reasons == std::vector{RenewalReason::BetweenPasses});
}

TEST_CASE("a seized one is looked at first", "[plan]") {
  const auto list = list_of(JobBuilder().joint("J01").out("J01/2", BreakLoose::Seized));
  REQUIRE(list.size() == 1);
  CHECK_FALSE(list[0].is_certain());
  CHECK(list_of(one_time().out("J10/1", BreakLoose::Seized)).at(0).is_certain());
}

TEST_CASE("an arrival counts until it was fitted and came out again", "[plan]") {
  auto builder = one_time().renewed("j10/1").out("J10/1-2");
  CHECK(list_of(builder)[0].has_arrived);
  CHECK_FALSE(list_of(builder)[1].has_arrived);
  builder.tightened("J10/1", 1, 80, 80);
  CHECK(list_of(builder)[0].has_arrived);
  builder.out("J10/1");
  CHECK_FALSE(list_of(builder)[0].has_arrived);
  builder.renewed("J10/1");
  CHECK(list_of(builder)[0].has_arrived);
}

TEST_CASE("a new one that arrives after the old one went back does not stand for it", "[plan]") {
  auto builder = one_time().out("J10/1").tightened("J10/1", 1, 80, 80);
  builder.renewed("J10/1");
  auto list = list_of(builder);
  REQUIRE(list.size() == 1);
  CHECK(list[0].has_arrived);  // it is not to be bought again
  REQUIRE(list[0].old_went_back != nullptr);
  CHECK(list[0].old_went_back->line == 5);
  list = list_of(builder.out("J10/1"));
  CHECK(list[0].has_arrived);
  CHECK(list[0].old_went_back == nullptr);
}

TEST_CASE("new ones between the passes may arrive while the old ones are in", "[plan]") {
  auto builder = JobBuilder().wrench().joint("J01").specified("J01", "50 N·m, new bolts, 80 N·m");
  builder.out("J01/1").tightened("J01/1", 1, 50, 50).renewed("J01/1");
  CHECK(list_of(builder).at(0).has_arrived);
  CHECK(list_of(builder)[0].old_went_back == nullptr);
  builder.tightened("J01/1", 2, 0, 0).last_tightening().target.kind = record::PassKind::Renew;
  CHECK(list_of(builder)[0].has_arrived);
}

TEST_CASE("what an earlier teardown found past its yield was the bolt before this one", "[plan]") {
  auto builder = JobBuilder().wrench().joint("J01").specified("J01").out("J01/1");
  builder.found("J01/1", "180s 190o").renewed("J01/1").tightened("J01/1", 1, 80, 80);
  CHECK(list_of(builder).size() == 1);
  CHECK(list_of(builder.out("J01/1")).empty());
}

TEST_CASE("a self-locking fastener that turned is bought, until the new one is in", "[plan]") {
  auto builder = JobBuilder().wrench().joint("J01").specified("J01", "80 N·m", "GB-1 p. 2",
                                                              fastener::Condition::Threadlocker);
  builder.tightened("J01/1", 1, 80, 80).striped("J01/1");
  CHECK(list_of(builder).empty());
  builder.rechecked("J01/1", 15.0);
  REQUIRE(list_of(builder).size() == 1);
  CHECK(list_of(builder)[0].reasons == std::vector{RenewalReason::TurnedSpent});
  CHECK(list_of(builder)[0].is_certain());
  CHECK_FALSE(list_of(builder)[0].has_arrived);
  // Tightened again, the old one is still in.
  CHECK_FALSE(list_of(builder.slackened("J01/1")).at(0).has_arrived);
  CHECK(list_of(builder.renewed("J01/1")).at(0).has_arrived);
  builder.tightened("J01/1", 2, 0, 0).last_tightening().target.kind = record::PassKind::Renew;
  CHECK(list_of(builder).at(0).has_arrived);
  // The new one came out later, in its turn: what was asked of the old one is past.
  CHECK(list_of(builder.out("J01/1")).empty());
}

TEST_CASE("a running torque at one position makes the whole joint self-locking", "[plan]") {
  auto builder = JobBuilder().wrench().joint("J01").specified("J01", "80 N·m").out("J01/1-4");
  builder.found("J01/3", "80s 86o");
  builder.last_finding().prevailing =
      quantity::StatedTorque{6.0, quantity::TorqueUnit::NewtonMetre};
  builder.tightened("J01/1", 1, 80, 80).rechecked("J01/1", 15.0);
  REQUIRE(list_of(builder).size() == 1);
  CHECK(list_of(builder)[0].position == 1);
  auto plain = JobBuilder().wrench().joint("J01").specified("J01", "80 N·m").out("J01/1-4");
  CHECK(list_of(plain.tightened("J01/1", 1, 80, 80).rechecked("J01/1", 15.0)).empty());
}

}  // namespace renewal_list_test
