#include "audit/lines_by_joint.h"

#include "record/address.h"

namespace audit {

LinesByJoint::LinesByJoint(const record::Job& job) {
  record::for_each_entry(job, [&]<class Kind>(const record::Entry<Kind>& entry) {
    if constexpr (record::AboutFasteners<Kind>) {
      joints_[record::folded_code(entry.content.joint)].add(entry);
    }
  });
}

const JointLines& LinesByJoint::of(std::string_view code) const {
  static const JointLines kNone;
  const auto found = joints_.find(record::folded_code(code));
  return found == joints_.end() ? kNone : found->second;
}

}  // namespace audit
