#pragma once

#include <optional>
#include <string>
#include <vector>

#include "finding/specification_group.h"
#include "plan/wrench_choice.h"
#include "quantity/angle.h"
#include "record/tightening.h"

namespace plan {

// One round over a joint: a step of the specification, or a share of its torque.
struct TighteningPass {
  record::PassKind kind = record::PassKind::Torque;
  std::optional<Aim> aim;                     // Torque and Check, where a torque is known
  std::optional<quantity::Angle> angle;       // Angle, and Loosen where the source says how far
  std::optional<record::AngleWindow> window;  // of an Angle; the source's, else the assumed one
  bool round_in_counting_order = false;       // the last check goes once round instead of crosswise
  bool checks_angle = false;   // a Check of the least torque that an angle has to reach
  bool asks_for_look = false;  // a Loosen of what turned: what is seen of it is to be told
  std::string says;            // "70 %", "55° to 65° allowed"; may be empty

  bool operator==(const TighteningPass&) const = default;
};

// What the pass asks for, as a tightening records it.
[[nodiscard]] record::PassTarget target_of(const TighteningPass& pass);

// Whether two passes ask for the same. Torques of a plan are computed anew at every call; a part in
// a billion is the same torque.
[[nodiscard]] bool same_target(const record::PassTarget& a, const record::PassTarget& b);

// The passes of some positions of a joint and where they come from.
struct Passes {
  std::vector<TighteningPass> passes;
  std::string origin;     // the specification, or the pass rule
  std::string rule;       // the pass rule by its name; empty where none was used
  std::string source;     // of the pass rule
  std::string how_known;  // of that source: "seen" or "memory"
  std::string before;     // what the rule asks for before its first round; may be empty
  std::string recheck;    // what it asks for after or between its rounds; may be empty
  std::string warning;    // a rule that was entered but gives way; empty otherwise
  bool provisional = false;
};

// Why positions that are in go through all their passes once more, after something else.
enum class Reopening {
  None,
  Turned,       // the final stripe was found turned (turned_stripes.h): slackened and looked at
  TurnedSpent,  // the same of one that is replaced (finding::is_spent_once_slackened)
  TestedSpent,  // a test broke a one-time fastener loose that had been tightened (broken_loose.h)
  Renewed,      // a new fastener was decided (decided.h)
};

// What comes before all their passes; empty for none.
[[nodiscard]] std::vector<TighteningPass> reopening_passes(Reopening why);

// What it takes to run the fasteners of some positions down before they seat.
struct Running {
  std::optional<quantity::StatedTorque> read;    // of these, by their tests
  std::optional<quantity::StatedTorque> may_be;  // where that is not known: the most of the joint
  std::optional<quantity::StatedTorque> of_before;  // of those that these are to replace

  bool operator==(const Running&) const = default;
};

// The specification's own steps where it has several; for a single torque the pass rule entered for
// the joint, else the default one (default_pass_rule.h), without its check round where threadlocker
// sets. Without a specification the provisional torque stands in, and where there is none either,
// one pass without a torque. A minimum torque behind an angle becomes a check of what the angle
// reached.
//
// What it takes to run these fasteners before they seat (`running`) comes on top of every torque
// and limit that a specification asks for, as it does where a found torque is judged
// (finding::at_wrench); a provisional torque, being found, holds it already. Where that of the
// fasteners is not known no torque holds any, each pass says that it has to be added, and how much
// the most was that a test of the joint read is kept beside the limits (Aim::may_run).
[[nodiscard]] Passes passes_of(const finding::JointState& joint,
                               const finding::SpecificationGroup& group,
                               const record::LogbookStart& start, const Running& running = {});

}  // namespace plan
