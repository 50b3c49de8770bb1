#include "audit/deviation.h"

#include <algorithm>

#include "audit/evidence.h"

namespace audit {

std::string_view word_of(Level level) {
  switch (level) {
    case Level::Hold:
      return "hold";
    case Level::Check:
      return "check";
    case Level::Note:
      return "note";
  }
  return "note";
}

std::string_view word_of(Weight weight) { return weight == Weight::Likely ? "likely" : "possible"; }

bool Deviation::is_about(int at) const {
  return std::ranges::any_of(
      parts, [&](const Part& part) { return !part.position || *part.position == at; });
}

std::string evidence_of(const Deviation& deviation) {
  if (deviation.parts.size() == 1) return deviation.parts.front().evidence;
  std::string all;
  for (const auto& part : deviation.parts) all += part.id + ' ' + part.evidence + '\n';
  return fnv1a(all);
}

std::vector<int> open_positions(const Deviation& deviation) {
  std::vector<int> open;
  for (const auto& part : deviation.parts) {
    if (part.settled == nullptr && part.position) open.push_back(*part.position);
  }
  return open;
}

}  // namespace audit
