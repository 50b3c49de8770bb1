#include "words/deviation_in_words.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <iterator>
#include <set>
#include <utility>

#include "record/address.h"
#include "words/text.h"

namespace words {

std::vector<std::string> to_settle_in_words(const audit::Audit& audit) {
  std::vector<std::string> parts;
  const auto to_settle = audit::in_the_way(audit);
  const auto holds = audit.open(audit::Level::Hold);
  if (holds > 0) parts.push_back(counted(holds, "hold") + " open");
  const auto checks = to_settle.size() - holds;
  if (checks > 0) parts.push_back(counted(checks, "check") + " to settle");
  return parts;
}

std::string left_to_read(const audit::Audit& audit) {
  const auto checks = audit.open(audit::Level::Check);
  const auto others = audit::looks_due(audit).size();
  if (checks <= others) return {};
  return fmt::format("; {} not settled: boltwitness audit", counted(checks - others, "check"));
}

std::string how_it_stands(const audit::Audit& audit) {
  auto parts = to_settle_in_words(audit);
  if (audit.ready()) parts.insert(parts.begin(), "no hold is open");
  const auto to_do = audit.to_do.size();
  if (to_do > 0) parts.push_back(fmt::format("{} decided and not done", to_do));
  if (to_do > 0 && audit.ready()) parts.erase(parts.begin());
  return fmt::format("{}: {}", audit.in_order() ? "In order" : "Not in order",
                     fmt::join(parts, ", "));
}

std::string place_text(const audit::Deviation& deviation) {
  return deviation.positions.empty() ? deviation.joint
                                     : record::write_address(deviation.joint, deviation.positions);
}

std::string decision_in_words(const record::Entry<record::Disposition>& entry) {
  const auto& [stamp, disposition] = entry;
  return fmt::format("{} by {}{}, {} (line {}): {}{}", record::word_of(disposition.decision),
                     stamp.by,
                     disposition.second_person.empty() ? "" : " with " + disposition.second_person,
                     record::write_local(stamp.done_at), stamp.line, disposition.reason,
                     disposition.done.empty() ? "" : "; done: " + disposition.done);
}

std::vector<std::string> decisions_in_words(const audit::Deviation& deviation) {
  std::vector<std::pair<const audit::Decided*, std::vector<int>>> decisions;
  for (const auto& part : deviation.parts) {
    if (part.settled == nullptr) continue;
    auto found = std::ranges::find(decisions, part.settled,
                                   &std::pair<const audit::Decided*, std::vector<int>>::first);
    if (found == decisions.end()) {
      decisions.push_back({part.settled, {}});
      found = std::prev(decisions.end());
    }
    if (part.position) found->second.push_back(*part.position);
  }
  std::vector<std::string> words;
  for (const auto& [decision, positions] : decisions) {
    const bool is_of_some = deviation.parts.size() > 1 && positions.size() < deviation.parts.size();
    words.push_back((is_of_some ? record::write_positions(positions) + ": " : "") +
                    decision_in_words(*decision));
  }
  return words;
}

namespace {

// The open parts on which this decision was made before.
std::vector<const audit::Part*> parts_of(const audit::Deviation& deviation,
                                         const audit::Decided& decision) {
  std::vector<const audit::Part*> parts;
  for (const auto& part : deviation.parts) {
    if (part.settled == nullptr && part.settled_before == &decision) parts.push_back(&part);
  }
  return parts;
}

// The lines of all these parts, each once, rising.
std::vector<std::int64_t> lines_of(const std::vector<const audit::Part*>& parts,
                                   std::vector<std::int64_t> audit::Part::*lines) {
  std::set<std::int64_t> all;
  for (const auto* part : parts) all.insert((part->*lines).begin(), (part->*lines).end());
  return {all.begin(), all.end()};
}

// What the decision before rests on and is dated after it; nothing where that is not so.
const record::Stamp* newer_evidence(const std::vector<const audit::Part*>& parts,
                                    const audit::Decided& decision) {
  for (const auto* part : parts) {
    if (part->newest != nullptr && part->newest->done_at > decision.stamp.done_at) {
      return part->newest;
    }
  }
  return nullptr;
}

std::string what_changed(const audit::Deviation& deviation, const audit::Decided& decision) {
  const auto parts = parts_of(deviation, decision);
  const auto& judged_on = decision.content.judged_on;
  const bool is_same =
      judged_on == deviation.says ||
      std::ranges::any_of(parts, [&](const auto* part) { return part->says == judged_on; });
  const auto since = lines_of(parts, &audit::Part::lines_since);
  const auto done = lines_of(parts, &audit::Part::lines_done);
  const auto apart = lines_of(parts, &audit::Part::lines_apart);
  std::string text;
  if (!since.empty() && since == apart) {
    text = fmt::format("line {} was not known to who decided: it is of another copy",
                       fmt::join(since, ", "));
  } else if (!since.empty()) {
    text = fmt::format("line {} came after the decision", fmt::join(since, ", "));
  } else if (!done.empty()) {
    text =
        fmt::format("what was decided has been done (line {}){}", fmt::join(done, ", "),
                    is_same ? ", and it stands all the same: history tells what came since" : "");
  } else if (const auto* newer = newer_evidence(parts, decision)) {
    return fmt::format(
        "the decision is dated before what it rests on (line {}), which it cannot have judged",
        newer->line);
  }
  if (!is_same) {
    text += fmt::format("{}it was judged on \"{}\"", text.empty() ? "" : "; ", judged_on);
  }
  return text.empty() ? "a line that the decision rested on counts no more" : text;
}

}  // namespace

std::vector<std::string> open_again(const audit::Deviation& deviation) {
  std::vector<const audit::Decided*> decisions;
  for (const auto& part : deviation.parts) {
    if (part.settled != nullptr || part.settled_before == nullptr) continue;
    if (std::ranges::find(decisions, part.settled_before) == decisions.end()) {
      decisions.push_back(part.settled_before);
    }
  }
  std::vector<std::string> words;
  for (const auto* decision : decisions) {
    std::vector<int> positions;
    for (const auto* part : parts_of(deviation, *decision)) {
      if (part->position) positions.push_back(*part->position);
    }
    const bool is_of_some =
        !positions.empty() && positions.size() < audit::open_positions(deviation).size();
    words.push_back(
        fmt::format("{}: {}. It was settled {}",
                    is_of_some ? " at " + record::write_positions(positions) : std::string(),
                    what_changed(deviation, *decision), decision_in_words(*decision)));
  }
  return words;
}

std::string work_in_words(const progress::DecidedWork& work, const audit::Deviation& deviation) {
  auto text = progress::in_words(work);
  if (work.decision->content.decision != record::Decision::CorrectRecord) return text;
  const auto part = std::ranges::find(deviation.parts, work.decision, &audit::Part::settled);
  if (part == deviation.parts.end() || part->told_in == nullptr) return text;
  return text + fmt::format(": strike {0} --why ..., or enter line {0} again with --replace {0}",
                            part->told_in->line);
}

std::string cause_in_words(const audit::Cause& cause) {
  return fmt::format("{}: {} ({})", audit::word_of(cause.weight), cause.says, cause.fact);
}

}  // namespace words
