#include "finding/entered_wrenches.h"

#include "record/address.h"

namespace finding {

EnteredWrenches::EnteredWrenches(const record::Job& job) {
  for (const auto& wrench : job.wrenches) names_.insert(record::folded_code(wrench.content.name));
}

bool EnteredWrenches::lacks(std::string_view name) const {
  return !name.empty() && !names_.contains(record::folded_code(name));
}

}  // namespace finding
