#include "act/copy_merge.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

#include "words/line_text.h"

namespace act {
namespace {

std::set<std::string> open_parts(const audit::Audit& audit) {
  std::set<std::string> ids;
  for (const auto& deviation : audit.deviations) {
    for (const auto& part : deviation.parts) {
      if (part.settled == nullptr) ids.insert(part.id);
    }
  }
  return ids;
}

std::vector<const audit::Deviation*> opened_since(const std::set<std::string>& before,
                                                  const audit::Audit& after) {
  std::vector<const audit::Deviation*> opened;
  for (const auto& deviation : after.deviations) {
    const bool is_new = std::ranges::any_of(deviation.parts, [&](const audit::Part& part) {
      return part.settled == nullptr && !before.contains(part.id);
    });
    if (is_new) opened.push_back(&deviation);
  }
  std::stable_partition(opened.begin(), opened.end(),
                        [](const auto* deviation) { return audit::is_contradiction(*deviation); });
  return opened;
}

// The lines that were taken over and can be read, strikes among them.
std::vector<words::WrittenLine> in_words(const std::vector<record::HistoryLine>& history,
                                         const logbook::Merged& merged) {
  std::vector<words::WrittenLine> lines;
  for (const auto& line : history) {
    if (!std::ranges::binary_search(merged.new_lines, line.stamp.line)) continue;
    lines.push_back({line.stamp, words::line_text(line.content)});
  }
  for (const auto& strike : merged.strikes) {
    lines.push_back(
        {strike.stamp, fmt::format("line {} struck: {}", strike.struck, strike.reason)});
  }
  std::ranges::sort(lines, {}, [](const auto& line) { return line.stamp.line; });
  return lines;
}

}  // namespace

Audited::Audited(record::Job whole, record::Moment now)
    : job(std::move(whole)), survey(finding::survey(job)), audit(audit::run({job, survey, now})) {}

CopyMerged merge_copy(logbook::Logbook& logbook, const std::string& copy, record::Moment now,
                      const logbook::MergeProgress& progress, logbook::Waiting& waiting) {
  const auto before = open_parts(Audited(logbook.job(), now).audit);
  logbook::Merging merging(logbook, copy, progress, waiting);
  CopyMerged result;
  result.merged = merging.merged();
  const auto& numbers = result.merged.new_lines;
  if (!numbers.empty()) result.lines = in_words(logbook.history(), result.merged);
  // A line of the logbook moves by as many as came before it.
  if (const auto first = result.merged.first_moved; first > 0) {
    result.first_moved_to = first;
    for (const auto number : numbers) {
      if (number > result.first_moved_to) break;
      ++result.first_moved_to;
    }
  }
  result.after = std::make_unique<Audited>(logbook.job(), now);
  result.opened = opened_since(before, result.after->audit);
  if (progress.keeping) progress.keeping();
  result.kept = merging.commit();
  return result;
}

}  // namespace act
