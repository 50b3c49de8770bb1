#pragma once

#include <string>
#include <vector>

#include "fastener/condition.h"
#include "record/specification.h"

namespace record {

// A specification as it was entered for a joint: what was typed, what it means, where it is from.
// A joint may have several (another source, a later bulletin); the latest one not struck counts.
struct Specified {
  std::string joint;
  std::string typed;  // as entered, kept to the letter
  Specification procedure;
  std::string source;  // document, revision, page; empty where none was given
  fastener::Condition condition = fastener::Condition::AsReceived;
};

}  // namespace record
