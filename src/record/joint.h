#pragma once

#include <optional>
#include <string>
#include <vector>

#include "quantity/length.h"
#include "record/in_job.h"
#include "record/layout.h"
#include "record/recheck_interval.h"

namespace record {

// The fasteners that hold one part to another and share a specification.
struct Joint {
  std::string code;
  std::string holds;                       // the part, in the fitter's words
  std::string size;                        // thread designation, fastener::read_thread reads it
  std::optional<quantity::Length> length;  // under the head
  std::string length_typed;                // as entered; may be empty, see length_text
  std::string grade;                       // property class or grade as marked; "unknown" allowed
  // The parts, where they are known: materials by the name that fastener::read_part_material gives.
  std::string into;                         // what the thread is screwed into; empty for a nut
  std::optional<quantity::Length> engaged;  // length of thread engaged; only with `into`
  std::string engaged_typed;                // as entered; may be empty
  std::string seat;                         // what the turned face bears on
  std::optional<quantity::Length> face;     // outer diameter on which it bears; only with `seat`
  std::string face_typed;                   // as entered; may be empty
  int count = 0;                            // positions 1..count
  Layout layout = CircleLayout{};
  bool one_time = false;            // fasteners to be renewed at every removal
  bool critical = false;            // a second person has to agree
  bool live_load = false;           // slackening it while the machine stands may let a load go
  std::vector<std::string> after;   // joints that must be finished before this one
  std::vector<std::string> covers;  // joints that nobody can reach any more once this is closed
  bool bench = false;               // put together on the bench, before the rest of the machine
  std::string final_when;  // snug at its turn, its final value when this is so; empty otherwise
  std::string order;   // of its positions: the maker's, or a published one by name; may be empty
  std::string passes;  // a pass rule by its name; empty for the default
  std::vector<RecheckInterval> rechecks;  // after the final value, as its source asks

  bool operator==(const Joint&) const = default;
};
template <>
struct InJob<Joint> {
  std::vector<Entry<Joint>> joints;
};

// The length as it was typed, else in mm; empty where none was given.
[[nodiscard]] std::string length_text(const Joint& joint);
[[nodiscard]] std::string engaged_text(const Joint& joint);
[[nodiscard]] std::string face_text(const Joint& joint);

}  // namespace record
