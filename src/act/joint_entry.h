#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "act/correction.h"
#include "act/done.h"
#include "act/known_codes.h"
#include "record/address.h"
#include "record/joint.h"
#include "record/specified.h"

namespace act {

// A joint, what is specified for it, or both, as typed.
struct JointWords {
  std::string code;
  std::string holds;
  std::string size;
  std::string length;
  std::string grade;
  std::string into;
  std::string engaged;
  std::string seat;
  std::string face;
  std::string count;
  std::string layout;
  bool one_time = false;
  bool critical = false;
  bool live_load = false;
  std::vector<std::string> after;
  std::vector<std::string> covers;
  bool bench = false;
  std::string final_when;
  std::string order;
  std::string passes;
  std::vector<std::string> rechecks;
  std::string spec;
  std::string source;
  std::string condition;
  bool really = false;
  Correction correction;
};

// True where they describe the fasteners and not only what is specified for them.
[[nodiscard]] bool describes_joint(const JointWords& words);

// The joint that the words describe. OptionError for what cannot be taken or is missing.
[[nodiscard]] record::Joint joint_from(const JointWords& words, const std::string& code);

// The specification they carry, for these positions or, with none, the whole joint; nothing where
// they carry none. OptionError as above.
[[nodiscard]] std::optional<record::Specified> specified_from(const JointWords& words,
                                                              const std::string& code,
                                                              const std::vector<int>& positions);

// What the words add to what is known, checked; one of the two at least.
struct CheckedJoint {
  std::optional<record::Joint> joint;
  std::optional<record::Specified> specified;
  std::vector<std::string> remarks;
};

// What the joint is checked against.
struct KnownJoints {
  const record::Joint* same = nullptr;  // the joint of that code; nothing where it is new
  const KnownCodes& codes;
  const std::vector<std::string>& to_suggest;  // codes that may be meant where it is unknown
  std::string what_to_do = {};                 // where it is entered already, at the door that asks
  bool is_correction = false;                  // it takes the place of an earlier line
};

// The one set of rules for what may be entered of a joint. OptionError for what cannot be taken or
// is missing; with the exit code of a refusal where the joint is there already, where another code
// differs from it in noughts alone, or where its fasteners cannot carry what is specified
// (`really`).
[[nodiscard]] CheckedJoint check_joint(const JointWords& words, const record::Address& address,
                                       const KnownJoints& known);

// That the joint names others that are not among `known`: they may be entered after it, but have to
// be entered.
[[nodiscard]] std::vector<std::string> remarks_on_others(const record::Joint& joint,
                                                         const KnownCodes& known);

// Records the joint and what is specified for it, in a line each. What replaces an earlier line
// keeps of it what is not stated anew, so that one field can be put right alone. Refusal where the
// joint is in the logbook already, where its fasteners cannot carry the specification, or where
// lines would be left without their position, unless that is meant (`really`).
Done enter_joint(logbook::Logbook& logbook, const logbook::Writer& writer, const JointWords& words);

}  // namespace act
