#pragma once

#include <string>
#include <vector>

#include "fastener/condition.h"
#include "record/in_job.h"
#include "record/specification.h"

namespace record {

// A specification as it was entered for a joint, or for some of its positions: what was typed, what
// it means, where it is from. A joint may have several (another source, a later bulletin); the
// latest one not struck counts, and for a position one of its own before that of the joint.
struct Specified {
  std::string joint;
  std::string typed;  // as entered, kept to the letter
  Specification procedure;
  std::string source;  // document, revision, page; empty where none was given
  fastener::Condition condition = fastener::Condition::AsReceived;
  std::vector<int> positions = {};  // rising; empty for the whole joint
};
template <>
struct InJob<Specified> {
  std::vector<Entry<Specified>> specifications;
};

}  // namespace record
