#include "finding/joint_index.h"

#include "record/address.h"

namespace finding {

JointIndex::JointIndex(const Survey& survey) : survey_(survey) {
  for (std::size_t i = 0; i < survey.joints.size(); ++i) {
    places_[record::folded_code(survey.joints[i].joint->code)] = i;
  }
}

std::optional<std::size_t> JointIndex::place_of(std::string_view code) const {
  const auto found = places_.find(record::folded_code(code));
  if (found == places_.end()) return std::nullopt;
  return found->second;
}

const JointState* JointIndex::find(std::string_view code) const {
  const auto place = place_of(code);
  return place ? &survey_.joints[*place] : nullptr;
}

}  // namespace finding
