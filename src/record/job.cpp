#include "record/job.h"

#include <algorithm>

#include "record/address.h"

namespace record {

const Joint* joint_in(const Job& job, std::string_view code) {
  const auto found = std::find_if(job.joints.rbegin(), job.joints.rend(), [&](const auto& entry) {
    return same_code(entry.content.code, code);
  });
  return found == job.joints.rend() ? nullptr : &found->content;
}

const Wrench* wrench_in(const Job& job, std::string_view name) {
  const auto found =
      std::find_if(job.wrenches.rbegin(), job.wrenches.rend(),
                   [&](const auto& entry) { return same_code(entry.content.name, name); });
  return found == job.wrenches.rend() ? nullptr : &found->content;
}

const Wrench* wrench_on(const Job& job, std::string_view name, Day day) {
  const Wrench* best = nullptr;
  for (const auto& entry : job.wrenches) {
    const Wrench& wrench = entry.content;
    if (!same_code(wrench.name, name) || !wrench.calibrated || *wrench.calibrated > day) continue;
    if (best == nullptr || *wrench.calibrated >= *best->calibrated) best = &wrench;
  }
  return best != nullptr ? best : wrench_in(job, name);
}

std::vector<std::string_view> wrench_names(const Job& job) {
  std::vector<std::string_view> names;
  for (const auto& entry : job.wrenches) {
    const std::string_view name = entry.content.name;
    if (std::ranges::none_of(names, [&](auto known) { return same_code(known, name); })) {
      names.push_back(name);
    }
  }
  return names;
}

}  // namespace record
