#include "audit/settlement.h"

#include <algorithm>
#include <string>
#include <unordered_map>

#include "record/deviation_id.h"

namespace audit {
void apply_dispositions(const record::Job& job, std::vector<Deviation>& deviations) {
  std::unordered_map<std::string, std::vector<const record::Entry<record::Disposition>*>> by_id;
  for (const auto& entry : job.dispositions) {
    by_id[record::folded_deviation_id(entry.content.deviation)].push_back(&entry);
  }
  if (by_id.empty()) return;
  for (auto& deviation : deviations) {
    const auto found = by_id.find(record::folded_deviation_id(deviation.id));
    if (found == by_id.end()) continue;
    const auto& decisions = found->second;
    const auto same = std::find_if(decisions.rbegin(), decisions.rend(), [&](const auto* entry) {
      return entry->content.evidence == deviation.evidence;
    });
    if (same != decisions.rend()) {
      deviation.settled = *same;
    } else {
      deviation.settled_before = decisions.back();
    }
  }
}

const Deviation* deviation_in(const Audit& audit, std::string_view id) {
  const auto found = std::ranges::find_if(audit.deviations, [&](const Deviation& deviation) {
    return record::same_deviation_id(deviation.id, id);
  });
  return found == audit.deviations.end() ? nullptr : &*found;
}

}  // namespace audit
