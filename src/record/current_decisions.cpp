#include "record/current_decisions.h"

#include <algorithm>
#include <map>
#include <string>

#include "record/deviation_id.h"

namespace record {

std::vector<CurrentDecision> current_decisions(const Job& job) {
  std::map<std::string, const Entry<Disposition>*> latest;  // by folded id of the matter
  for (const auto& entry : job.dispositions) {
    const auto& disposition = entry.content;
    if (disposition.parts.empty()) latest[folded_deviation_id(disposition.deviation)] = &entry;
    for (const auto& part : disposition.parts) latest[folded_deviation_id(part.deviation)] = &entry;
  }
  std::vector<CurrentDecision> current;
  for (const auto& entry : job.dispositions) {
    const auto& disposition = entry.content;
    if (disposition.parts.empty()) {
      if (latest[folded_deviation_id(disposition.deviation)] != &entry) continue;
      current.push_back({&entry, positions_of(disposition)});
      continue;
    }
    CurrentDecision decision{&entry, {}};
    bool counts = false;
    for (const auto& part : disposition.parts) {
      if (latest[folded_deviation_id(part.deviation)] != &entry) continue;
      counts = true;
      if (part.position) decision.positions.push_back(*part.position);
    }
    if (!counts) continue;
    std::ranges::sort(decision.positions);
    decision.positions.erase(std::unique(decision.positions.begin(), decision.positions.end()),
                             decision.positions.end());
    current.push_back(std::move(decision));
  }
  return current;
}

}  // namespace record
