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

// The lines of these numbers, strikes among them.
std::vector<words::WrittenLine> in_words(const std::vector<record::HistoryLine>& history,
                                         const std::vector<std::int64_t>& numbers) {
  std::vector<words::WrittenLine> lines;
  const auto add = [&](const record::Stamp& stamp, std::string says) {
    if (std::ranges::binary_search(numbers, stamp.line)) lines.push_back({stamp, std::move(says)});
  };
  for (const auto& line : history) {
    add(line.stamp, words::line_text(line.content));
    const auto add_strike = [&](const record::Stamp& by, const std::string& why) {
      add(by, fmt::format("line {} struck: {}", line.stamp.line, why));
    };
    if (line.struck_by) add_strike(*line.struck_by, line.struck_why);
    for (const auto& again : line.struck_again) add_strike(again.by, again.why);
  }
  std::ranges::sort(lines, {}, [](const auto& line) { return line.stamp.line; });
  return lines;
}

}  // namespace

Audited::Audited(record::Job whole, record::Moment now)
    : job(std::move(whole)), survey(finding::survey(job)), audit(audit::run({job, survey, now})) {}

CopyMerged merge_copy(logbook::Logbook& logbook, const std::string& copy, record::Moment now,
                      const logbook::MergeProgress& progress) {
  const auto before = open_parts(Audited(logbook.job(), now).audit);
  logbook::Merging merging(logbook, copy, progress);
  CopyMerged result;
  result.merged = merging.merged();
  const auto& numbers = result.merged.new_lines;
  if (!numbers.empty()) result.lines = in_words(logbook.history(), numbers);
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
  merging.commit();
  return result;
}

}  // namespace act
