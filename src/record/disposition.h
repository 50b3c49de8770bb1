#pragma once

#include <array>
#include <optional>
#include <string>

#include "record/in_job.h"
#include "record/word.h"

namespace record {

// What may be decided about a deviation.
enum class Decision { UseAsIs, ReTorque, Renew, Repair, CorrectRecord };
template <>
struct Vocabulary<Decision> {
  static constexpr std::array kWords = {
      Word{Decision::UseAsIs, "use-as-is"}, Word{Decision::ReTorque, "re-torque"},
      Word{Decision::Renew, "renew"}, Word{Decision::Repair, "repair"},
      Word{Decision::CorrectRecord, "correct-record"}};
};

// The decision on one deviation of the audit. It holds for the evidence that it was made on and for
// no other: `evidence` is the fingerprint of that (audit/evidence.h).
struct Disposition {
  std::string deviation;  // its id in the audit
  std::string rule;
  std::string joint;            // empty where it is about none
  std::optional<int> position;  // nothing where it is about the whole joint
  std::string evidence;
  std::string judged_on;  // what the audit said of it then
  Decision decision = Decision::UseAsIs;
  std::string reason;
  std::string second_person;  // who agreed besides the one who decided; may be empty
};
template <>
struct InJob<Disposition> {
  std::vector<Entry<Disposition>> dispositions;
};

}  // namespace record
