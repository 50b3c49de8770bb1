#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>

#include "finding/survey.h"

namespace finding {

// Looks the joints of a survey up by code, in any case of letters, where it is done more than once.
// Points into the survey, whose joints must not change.
class JointIndex {
 public:
  explicit JointIndex(const Survey& survey);

  // Its place among the survey's joints; nothing where there is none of that code.
  [[nodiscard]] std::optional<std::size_t> place_of(std::string_view code) const;
  [[nodiscard]] const JointState* find(std::string_view code) const;

 private:
  const Survey& survey_;
  std::unordered_map<std::string, std::size_t> places_;  // by folded code
};

}  // namespace finding
