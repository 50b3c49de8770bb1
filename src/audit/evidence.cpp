#include "audit/evidence.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cstdint>

#include "record/address.h"

namespace audit {
namespace {

// The words that hold a figure. What follows "line" is a number of this file alone and would differ
// in a merged copy.
std::string figures_in(std::string_view says) {
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
      if (at < tightenings.size()) tightenings[at].push_back(entry.stamp.id);
    }
  }
}

void Evidence::add(const JointLines& joint, const RestsOn& rests_on, std::size_t at,
                   std::vector<std::string_view>& lines) {
  const auto& position = joint.state->positions[at];
  if (rests_on.removals && position.removal != nullptr) {
    lines.push_back(position.removal->stamp.id);
  }
  if (rests_on.findings) {
    for (const auto& finding : position.findings) lines.push_back(finding.entry->stamp.id);
  }
  if (rests_on.tightenings) {
    lines.insert(lines.end(), joint.tightenings[at].begin(), joint.tightenings[at].end());
  }
}

std::string Evidence::fingerprint(const Rule& rule, const Deviation& deviation) const {
  std::vector<std::string_view> lines;
  const auto found = joints_.find(record::folded_code(deviation.joint));
  if (found != joints_.end()) {
    const auto& joint = found->second;
    if (deviation.position) {
      const auto at = static_cast<std::size_t>(*deviation.position) - 1;
      if (at < joint.tightenings.size()) add(joint, rule.rests_on, at, lines);
    } else {
      for (std::size_t at = 0; at < joint.tightenings.size(); ++at) {
        add(joint, rule.rests_on, at, lines);
      }
    }
  }
  std::ranges::sort(lines);
  lines.erase(std::unique(lines.begin(), lines.end()), lines.end());
  return fnv1a(fmt::format("{}\n{}\n{}", word_of(deviation.level), figures_in(deviation.says),
                           fmt::join(lines, "\n")));
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
