#pragma once

#include <optional>
#include <string>
#include <vector>

#include "quantity/length.h"
#include "record/layout.h"

namespace record {

// The fasteners that hold one part to another and share a specification.
struct Joint {
  std::string code;
  std::string holds;                       // the part, in the fitter's words
  std::string size;                        // thread designation, fastener::read_thread reads it
  std::optional<quantity::Length> length;  // under the head
  std::string grade;                       // property class or grade as marked; "unknown" allowed
  int count = 0;                           // positions 1..count
  Layout layout = CircleLayout{};
  bool one_time = false;           // fasteners to be renewed at every removal
  bool critical = false;           // a second person has to agree
  std::vector<std::string> after;  // joints that must be finished before this one
};

}  // namespace record
