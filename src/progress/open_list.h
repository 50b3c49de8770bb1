#pragma once

#include <string>
#include <vector>

#include "progress/reassembly.h"

namespace progress {

// What is open, in the order in which it is done.
enum class OpenKind {
  HoldPoint,
  TestUnderWay,
  NewFastener,
  OldIn,            // new ones arrived when the old ones had gone back in
  ItemBeforeJoint,  // that has to be back before a joint is closed
  Spent,            // one-time, turned by its angle, and to be tightened again
  StripeTurned,
  NotTold,
  Pass,
  SecondPerson,
  Stripe,
  CounterReading,  // not noted, so that nobody can tell when the next look falls due
  Item,
  Fluid,
};

// Something that has to be done before the job is finished.
struct OpenPoint {
  std::string joint;  // empty where it is of the whole job
  std::string says;
  OpenKind kind = OpenKind::Pass;
  std::string command = {};  // what is typed to go on with it; empty where it is waited for
};

// What came out of a joint and what has gone back.
struct JointCount {
  const finding::JointState* joint = nullptr;
  int planned = 0;  // positions that the plan has, those left as decided left out
  int out = 0;      // recorded as out, those found empty left out
  int found_empty = 0;
  int passes = 0;  // of the plan, those all of whose positions are through
  int passes_planned = 0;
  int final_value = 0;  // positions at their final value, none below its least
  int striped = 0;
  int checked = 0;                     // by a second person
  std::vector<std::string> bags = {};  // in which its fasteners lie or lay, by name
};

// What lay in a bag and what of it has gone back: positions with their final value.
struct BagCount {
  std::string bag;
  int out = 0;
  int back = 0;
};

[[nodiscard]] std::vector<JointCount> joint_counts(const Reassembly& reassembly);

// In the order of their names.
[[nodiscard]] std::vector<BagCount> bag_counts(const Reassembly& reassembly);

// Everything that is open at this moment, first what concerns the whole job, then joint by joint in
// the order of the plan: hold points not passed (but for those that were closed again when nothing
// behind them was open any more), found-torque tests under way, fluids and items not back, new
// fasteners not arrived or the old ones in all the same, final stripes found turned, what was not
// told of those when they were slackened, one-time fasteners that were turned by their angle and
// are to be tightened again, passes open or left out, final values that wait for their condition,
// checks by a second person on critical joints, final stripes, counter readings that were not noted
// with them. Where a joint is covered and its cover is on, the command opens that; the passes of a
// cover have none while something under it is open. What the audit holds up comes on top.
[[nodiscard]] std::vector<OpenPoint> open_list(const Reassembly& reassembly, record::Moment now);

}  // namespace progress
