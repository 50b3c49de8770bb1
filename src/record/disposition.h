#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

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

// One of the matters that a decision is about, and the fingerprint of its evidence
// (audit/evidence.h).
struct DecidedOn {
  std::string deviation;        // the id that it has alone, such as "found-low:J06/03"
  std::optional<int> position;  // nothing where it is about the whole joint, or about none
  std::string evidence;
};

// The decision on one deviation of the audit. It holds for the evidence that it was made on and for
// no other.
struct Disposition {
  std::string deviation;  // its id in the audit
  std::string rule;
  std::string joint;            // empty where it is about none
  std::optional<int> position;  // nothing where it is about the whole joint, or some positions
  std::string evidence;         // of all of it; the words of old decisions count (audit/evidence.h)
  std::string judged_on;        // what the audit said of it then
  Decision decision = Decision::UseAsIs;
  std::string reason;
  std::string second_person;  // who agreed besides the one who decided; may be empty
  // What it is about, one by one; empty in a line from before schema step 9.
  std::vector<DecidedOn> parts = {};
  // What was done, where the line says that a repair or a correction of the record that was decided
  // before has been carried out; empty where it only decides.
  std::string done = {};
};
template <>
struct InJob<Disposition> {
  std::vector<Entry<Disposition>> dispositions;
};

// The positions that it is about, rising; empty where it is about the whole joint, or about none.
[[nodiscard]] std::vector<int> positions_of(const Disposition& disposition);

}  // namespace record
