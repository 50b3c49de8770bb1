#include "audit/evidence.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>

#include "record/address.h"

namespace audit {
namespace {

// The words that hold a figure, as decisions before schema step 9 kept them. What follows "line"
// is a number of this file alone and would differ in a merged copy.
std::string words_with_figures(std::string_view says) {
  std::string figures;
  bool after_line = false;
  while (!says.empty()) {
    const auto blank = says.find(' ');
    auto word = says.substr(0, blank);
    says.remove_prefix(blank == std::string_view::npos ? says.size() : blank + 1);
    while (!word.empty() && std::string_view("(),;.:").find(word.front()) != std::string_view::npos)
      word.remove_prefix(1);
    while (!word.empty() && std::string_view("(),;.:").find(word.back()) != std::string_view::npos)
      word.remove_suffix(1);
    const bool has_figure = word.find_first_of("0123456789") != std::string_view::npos;
    if (has_figure && !after_line) figures += fmt::format("{} ", word);
    after_line = word == "line";
  }
  return figures;
}

}  // namespace

Evidence::Evidence(const Case& subject) {
  for (const auto& joint : subject.survey.joints) {
    auto& lines = joints_[record::folded_code(joint.joint->code)];
    lines.state = &joint;
    lines.tightenings.resize(joint.positions.size());
  }
  for (const auto& entry : subject.job.tightenings) {
    const auto found = joints_.find(record::folded_code(entry.content.joint));
    if (found == joints_.end()) continue;
    auto& tightenings = found->second.tightenings;
    for (const int position : entry.content.positions) {
      const auto at = static_cast<std::size_t>(position) - 1;
      if (at < tightenings.size()) tightenings[at].push_back(&entry.stamp);
    }
  }
}

void Evidence::add(const JointLines& joint, const RestsOn& rests_on, std::size_t at, Lines& lines) {
  const auto& position = joint.state->positions[at];
  if (rests_on.removals) {
    // What a finding shows rests on its own teardown and not on a later one.
    const auto* finding = rests_on.findings ? position.finding() : nullptr;
    const auto* removal = finding == nullptr ? position.removal : finding->removal;
    if (removal != nullptr) lines.push_back(&removal->stamp);
  }
  if (rests_on.findings) {
    for (const auto& finding : position.findings) lines.push_back(&finding.entry->stamp);
  }
  if (rests_on.tightenings) {
    lines.insert(lines.end(), joint.tightenings[at].begin(), joint.tightenings[at].end());
  }
}

Evidence::Lines Evidence::lines_of(const Rule& rule, const Deviation& deviation,
                                   const Part& part) const {
  Lines lines;
  const auto found = joints_.find(record::folded_code(deviation.joint));
  if (found == joints_.end()) return lines;
  const auto& joint = found->second;
  if (part.position) {
    const auto at = static_cast<std::size_t>(*part.position) - 1;
    if (at < joint.tightenings.size()) add(joint, rule.rests_on, at, lines);
  } else {
    for (std::size_t at = 0; at < joint.tightenings.size(); ++at) {
      add(joint, rule.rests_on, at, lines);
    }
  }
  std::ranges::sort(lines, {}, &record::Stamp::id);
  const auto repeated = std::ranges::unique(lines, {}, &record::Stamp::id);
  lines.erase(repeated.begin(), repeated.end());
  return lines;
}

std::string Evidence::ids_of(const Rule& rule, const Deviation& deviation, const Part& part) const {
  std::string ids;
  for (const auto* line : lines_of(rule, deviation, part)) {
    if (!ids.empty()) ids += '\n';
    ids += line->id;
  }
  return ids;
}

std::string Evidence::fingerprint(const Rule& rule, const Deviation& deviation,
                                  const Part& part) const {
  return fnv1a(fmt::format("figures\n{}\n{}\n{}", word_of(deviation.level), part.figures,
                           ids_of(rule, deviation, part)));
}

std::string Evidence::old_fingerprint(const Rule& rule, const Deviation& deviation,
                                      const Part& part) const {
  const auto& said = part.old_says.empty() ? part.says : part.old_says;
  return fnv1a(fmt::format("{}\n{}\n{}", word_of(deviation.level), words_with_figures(said),
                           ids_of(rule, deviation, part)));
}

std::vector<std::int64_t> Evidence::lines_since(const record::Stamp& decision, const Rule& rule,
                                                const Deviation& deviation,
                                                const Part& part) const {
  std::vector<std::int64_t> since;
  for (const auto* line : lines_of(rule, deviation, part)) {
    if (line->entered_at > decision.entered_at ||
        (line->entered_at == decision.entered_at && line->id > decision.id)) {
      since.push_back(line->line);
    }
  }
  std::ranges::sort(since);
  return since;
}

std::string fnv1a(std::string_view text) {
  std::uint64_t hash = 0xcbf29ce484222325;
  for (const char c : text) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 0x100000001b3;
  }
  return fmt::format("{:016x}", hash);
}

}  // namespace audit
