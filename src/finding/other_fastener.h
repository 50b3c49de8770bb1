#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>

#include "finding/survey.h"

namespace finding {

// What came out that is not what the joint says, in words: "length 35 mm came out where 50 mm
// belongs"; empty where nothing differs.
[[nodiscard]] std::string other_fastener(const record::Joint& joint,
                                         const record::Removal& removal);

// The fasteners of another length than their joint's. Where one has the length that belongs to the
// hole of another, which held one of its own, the two were swapped.
class OddLengths {
 public:
  explicit OddLengths(const Survey& survey);

  // The position with which this fastener was swapped; nothing where it was not.
  [[nodiscard]] std::optional<std::string> swapped_with(const record::Joint& joint,
                                                        const record::Removal& removal) const;

 private:
  using Lengths = std::pair<long long, long long>;  // that belongs, that came out, in micrometres

  static std::optional<Lengths> lengths_of(const record::Joint& joint,
                                           const record::Removal& removal);

  std::map<Lengths, std::pair<const record::Joint*, int>> holes_;
};

}  // namespace finding
