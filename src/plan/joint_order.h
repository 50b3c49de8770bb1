#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace plan {

// A joint as the order of reassembly sees it.
struct JointToClose {
  std::string code;
  std::optional<int> came_out;  // its rank in the removal, rising; absent where it never came out
  bool bench = false;           // put together on the bench, before the rest of the machine
};

// "J03 after J05": J03 is closed only when J05 is finished. "J03 covers J05": J05 cannot be reached
// any more once J03 is closed, so the same holds; only the reason shown differs.
struct Precedence {
  enum class Kind { After, Covers };
  std::string code;
  Kind kind = Kind::After;
  std::string first;  // the joint to be finished first

  bool operator==(const Precedence&) const = default;
};

// One row of the plan. `why` says in words why it stands there: first "bench work" where it is, and
// the default ("never came out", "came out last", "reverse of removal"), then the stated
// precedences: those that held it back beyond its default place ("waits for J03, J05"), those that
// hold anyway ("after J04", "covers J02").
struct OrderedJoint {
  std::string code;
  std::string why;

  bool operator==(const OrderedJoint&) const = default;
};

struct JointOrder {
  std::vector<OrderedJoint> rows;
  std::vector<Precedence> unknown;  // name a joint that is not in the logbook; left out of account
};

// Precedences that no order can meet: each waits for the next, the last for the first.
struct JointCycle {
  std::vector<Precedence> links;
};

// The order in which joints are closed again, given in the order of their entry.
//
// Default: what is put together on the bench before all else; within that, reverse of removal, last
// out first in; equal ranks keep the order of entry. A joint that never came out would have come
// out after all others, so it stands before them, in order of entry. Precedence overrules: at every
// place stands the joint earliest in the default among those whose precedences are met. So without
// precedences the default stands, and no joint moves that does not have to wait or take the place
// of one that does.
//
// Where there is a cycle one is returned: the shortest through the joint, earliest in the default,
// that a walk backwards along the precedences comes round to.
//
// InputError where two joints share a code. O((n + p) log(n + p)) for n joints and p precedences.
[[nodiscard]] std::variant<JointOrder, JointCycle> joint_order(
    const std::vector<JointToClose>& joints, const std::vector<Precedence>& precedences);

// "J03 after J05, J05 covers J07, J07 after J03".
[[nodiscard]] std::string in_words(const JointCycle& cycle);

}  // namespace plan
