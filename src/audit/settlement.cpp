#include "audit/settlement.h"

#include <algorithm>
#include <string>
#include <unordered_map>

#include "quantity/ascii.h"

namespace audit {
namespace {

std::string folded_id(std::string_view id) {
  std::string folded;
  for (const char c : id) {
    if (c == '0' && folded.ends_with('/')) continue;
    folded += quantity::lower(c);
  }
  return folded;
}

}  // namespace

void apply_dispositions(const record::Job& job, std::vector<Deviation>& deviations) {
  std::unordered_map<std::string, std::vector<const record::Entry<record::Disposition>*>> by_id;
  for (const auto& entry : job.dispositions) {
    by_id[folded_id(entry.content.deviation)].push_back(&entry);
  }
  if (by_id.empty()) return;
  for (auto& deviation : deviations) {
    const auto found = by_id.find(folded_id(deviation.id));
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

bool same_id(std::string_view a, std::string_view b) { return folded_id(a) == folded_id(b); }

const Deviation* deviation_in(const Audit& audit, std::string_view id) {
  const auto found = std::ranges::find_if(
      audit.deviations, [&](const Deviation& deviation) { return same_id(deviation.id, id); });
  return found == audit.deviations.end() ? nullptr : &*found;
}

}  // namespace audit
