#include "record/joint.h"

#include "record/as_typed.h"

namespace record {

std::string length_text(const Joint& joint) { return as_typed(joint.length_typed, joint.length); }

}  // namespace record
