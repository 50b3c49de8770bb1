#include "record/concerns.h"

#include "support/catch.h"

namespace concerns_test {

using record::concerns;

namespace {

const record::Address kJoint{"J06", {}};
const record::Address kThird{"J06", {3}};
const record::Address kOther{"J07", {}};

// About J06/2-3, so about the joint and position 3, not about position 4 or another joint.
void concerns_positions(const record::Content& content) {
  CHECK(concerns(content, kJoint));
  CHECK(concerns(content, {"j06", {}}));
  CHECK(concerns(content, kThird));
  CHECK_FALSE(concerns(content, {"J06", {4}}));
  CHECK(concerns(content, {"J06", {1, 2}}));
  CHECK_FALSE(concerns(content, kOther));
  CHECK(record::joint_named(content) == "J06");
}

// About the whole joint, so about each of its positions.
void concerns_whole(const record::Content& content) {
  CHECK(concerns(content, kJoint));
  CHECK(concerns(content, kThird));
  CHECK_FALSE(concerns(content, kOther));
}

}  // namespace

TEST_CASE("lines about positions concern these and their joint", "[record]") {
  record::Specified specified;
  specified.joint = "J06";
  specified.positions = {2, 3};
  concerns_positions(specified);
  record::Removal removal;
  removal.joint = "J06";
  removal.positions = {2, 3};
  concerns_positions(removal);
  concerns_positions(record::Renewal{"J06", {2, 3}});
  record::Tightening tightening;
  tightening.joint = "J06";
  tightening.positions = {2, 3};
  concerns_positions(tightening);
  concerns_positions(record::FinalStripe{"J06", {2, 3}, true, {}});
  concerns_positions(record::Recheck{"J06", {2, 3}, {}, {}});
  record::Photograph photograph;
  photograph.joint = "J06";
  photograph.positions = {2, 3};
  concerns_positions(photograph);
  record::Measured measured;
  measured.joint = "J06";
  measured.position = 3;
  CHECK(concerns(measured, kThird));
  CHECK_FALSE(concerns(measured, {"J06", {2}}));
  record::Disposition disposition;
  disposition.joint = "J06";
  disposition.position = 3;
  CHECK(concerns(disposition, kThird));
  CHECK(concerns(disposition, kJoint));
  CHECK_FALSE(concerns(disposition, {"J06", {2}}));
}

TEST_CASE("lines about a joint concern each of its positions", "[record]") {
  record::Joint joint;
  joint.code = "J06";
  concerns_whole(joint);
  record::Specified specified;
  specified.joint = "J06";
  concerns_whole(specified);
  concerns_whole(record::CountedItem{"CL1", "clips", 6, "J06"});
  concerns_whole(record::HoldPoint{"HV", "store discharged", {}, {"J05", "J06"}});
  record::Disposition disposition;
  disposition.joint = "J06";
  concerns_whole(disposition);
  record::Photograph photograph;
  photograph.joint = "J06";
  concerns_whole(photograph);
}

TEST_CASE("items, hold points and wrenches are known by their own names", "[record]") {
  CHECK(concerns(record::CountedItem{"CL1", "clips", 6, "J06"}, {"cl1", {}}));
  CHECK(concerns(record::ItemReturn{"CL1", 4}, {"CL1", {}}));
  CHECK(concerns(record::HoldPoint{"HV", "store discharged", {}, {}}, {"HV", {}}));
  CHECK(concerns(record::HoldPointStep{"HV", record::HoldPointMove::Passed, ""}, {"HV", {}}));
  record::Wrench wrench;
  wrench.name = "TW2";
  CHECK(concerns(wrench, {"tw2", {}}));
  // What is said of the whole machine is said of no joint.
  CHECK_FALSE(concerns(record::LogbookStart{}, kJoint));
  CHECK_FALSE(concerns(record::FluidAmount{}, kJoint));
  CHECK_FALSE(concerns(record::Photograph{}, kJoint));
  CHECK_FALSE(concerns(record::HoldPoint{"HV", "store discharged", {}, {}}, kJoint));
}

}  // namespace concerns_test
