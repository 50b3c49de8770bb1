#include "audit/settlement.h"

#include <algorithm>
#include <string>
#include <unordered_map>

#include "record/deviation_id.h"

namespace audit {
namespace {

// Dated before what it rests on: what it asks for would be done by the very work that was faulty.
// Versions before this one took such a decision.
bool is_before_evidence(const Decided& decision, const Part& part) {
  return part.newest != nullptr && decision.stamp.done_at < part.newest->done_at;
}

// One decision about one matter: on which evidence, and in which form that was made.
struct Ground {
  const Decided* decision = nullptr;
  std::string_view evidence;
  bool is_old_form = false;

  [[nodiscard]] bool is_of(const Part& part) const {
    return evidence == (is_old_form ? part.old_evidence : part.evidence) &&
           !is_before_evidence(*decision, part);
  }
};

using Grounds = std::unordered_map<std::string, std::vector<Ground>>;  // by folded id

Grounds grounds_of(const record::Job& job) {
  Grounds grounds;
  for (const auto& entry : job.dispositions) {
    const auto& disposition = entry.content;
    if (disposition.parts.empty()) {
      grounds[record::folded_deviation_id(disposition.deviation)].push_back(
          {&entry, disposition.evidence, true});
    }
    for (const auto& part : disposition.parts) {
      grounds[record::folded_deviation_id(part.deviation)].push_back(
          {&entry, part.evidence, false});
    }
  }
  return grounds;
}

void settle(Part& part, const Grounds& grounds) {
  const auto found = grounds.find(record::folded_deviation_id(part.id));
  if (found == grounds.end()) return;
  const auto& about = found->second;
  const auto same = std::find_if(about.rbegin(), about.rend(),
                                 [&](const Ground& ground) { return ground.is_of(part); });
  if (same != about.rend()) {
    part.settled = same->decision;
  } else {
    part.settled_before = about.back().decision;
  }
}

}  // namespace

void apply_dispositions(const record::Job& job, Deviations& deviations) {
  const auto grounds = grounds_of(job);
  if (grounds.empty()) return;
  for (auto& deviation : deviations) {
    const Decided* latest = nullptr;
    bool is_open = false;
    for (auto& part : deviation.parts) {
      settle(part, grounds);
      is_open = is_open || part.settled == nullptr;
      if (deviation.settled_before == nullptr) deviation.settled_before = part.settled_before;
      if (part.settled == nullptr) continue;
      if (latest == nullptr || latest->stamp.id < part.settled->stamp.id) latest = part.settled;
    }
    if (!is_open) deviation.settled = latest;
  }
}

const Deviation* deviation_in(const Audit& audit, std::string_view id) {
  const auto whole = std::ranges::find_if(audit.deviations, [&](const Deviation& deviation) {
    return record::same_deviation_id(deviation.id, id);
  });
  if (whole != audit.deviations.end()) return &*whole;
  const auto with_part = std::ranges::find_if(audit.deviations, [&](const Deviation& deviation) {
    return part_in(deviation, id) != nullptr;
  });
  return with_part == audit.deviations.end() ? nullptr : &*with_part;
}

namespace {

// All parts that `wanted` takes, or the one with this id alone.
template <class Wanted>
record::Disposition decision_about(const Deviation& deviation, std::string_view id,
                                   const Wanted& wanted) {
  const auto* alone = part_in(deviation, id);
  record::Disposition disposition;
  disposition.deviation = alone == nullptr ? deviation.id : alone->id;
  disposition.rule = deviation.rule;
  disposition.joint = deviation.joint;
  disposition.position = alone == nullptr ? deviation.position : alone->position;
  disposition.judged_on = alone == nullptr ? deviation.says : alone->says;
  for (const auto& part : deviation.parts) {
    if ((alone == nullptr || alone == &part) && wanted(part)) {
      disposition.parts.push_back({part.id, part.position, part.evidence});
    }
  }
  disposition.evidence = alone == nullptr ? evidence_of(deviation) : alone->evidence;
  return disposition;
}

bool waits_for_its_line(const Part& part) {
  if (part.settled == nullptr || !part.settled->content.done.empty()) return false;
  const auto decision = part.settled->content.decision;
  return decision == record::Decision::Repair || decision == record::Decision::CorrectRecord;
}

}  // namespace

record::Disposition disposition_about(const Deviation& deviation, std::string_view id) {
  return decision_about(deviation, id, [](const Part& part) { return part.settled == nullptr; });
}

std::optional<record::Disposition> carried_out(const Deviation& deviation, std::string_view id) {
  auto disposition = decision_about(deviation, id, waits_for_its_line);
  if (disposition.parts.empty()) return std::nullopt;
  const auto first =
      std::ranges::find(deviation.parts, disposition.parts.front().deviation, &Part::id);
  const auto& decided = first->settled->content;
  disposition.decision = decided.decision;
  disposition.reason = decided.reason;
  disposition.second_person = decided.second_person;
  return disposition;
}

const Part* part_in(const Deviation& deviation, std::string_view id) {
  if (record::same_deviation_id(deviation.id, id)) return nullptr;
  const auto found = std::ranges::find_if(
      deviation.parts, [&](const Part& part) { return record::same_deviation_id(part.id, id); });
  return found == deviation.parts.end() ? nullptr : &*found;
}

}  // namespace audit
