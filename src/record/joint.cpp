#include "record/joint.h"

#include "record/as_typed.h"

namespace record {

std::string length_text(const Joint& joint) { return as_typed(joint.length_typed, joint.length); }

std::string engaged_text(const Joint& joint) {
  return as_typed(joint.engaged_typed, joint.engaged);
}

std::string face_text(const Joint& joint) { return as_typed(joint.face_typed, joint.face); }

}  // namespace record
