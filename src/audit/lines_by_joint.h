#pragma once

#include <string>
#include <string_view>
#include <tuple>
#include <unordered_map>
#include <vector>

#include "record/concerns.h"
#include "record/job.h"

namespace audit {

// The lines about the fasteners of one joint, kind by kind (record/concerns.h), in the order of
// their ids, whether the positions that they name exist or not.
class JointLines {
 public:
  template <record::AboutFasteners Kind>
  [[nodiscard]] const std::vector<const record::Entry<Kind>*>& of() const {
    return std::get<Entries<Kind>>(entries_);
  }
  template <record::AboutFasteners Kind>
  void add(const record::Entry<Kind>& entry) {
    std::get<Entries<Kind>>(entries_).push_back(&entry);
  }

 private:
  template <class Kind>
  using Entries = std::vector<const record::Entry<Kind>*>;
  template <class List>
  struct OfEach;
  template <class... Each>
  struct OfEach<record::ListOfKinds<Each...>> {
    using Type = std::tuple<Entries<typename Each::Content>...>;
  };
  OfEach<record::Kinds>::Type entries_;  // empty for a kind that is about no fastener
};

// Gathers them once for all joints, so that a rule about one joint goes through no other's.
class LinesByJoint {
 public:
  // Points into the job.
  explicit LinesByJoint(const record::Job& job);

  // Of the joint with this code, in any case of letters.
  [[nodiscard]] const JointLines& of(std::string_view code) const;

 private:
  std::unordered_map<std::string, JointLines> joints_;  // by folded code
};

}  // namespace audit
