#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "audit/apart_matter.h"
#include "audit/flag.h"
#include "audit/rules.h"
#include "finding/specification_group.h"
#include "record/same_specification.h"

namespace audit {
namespace {

// "1-4 were tightened to 48 N·m (line 9)", for each torque; empty where nothing was tightened.
Statement tightened_to(const JointCase& at, const std::vector<int>& positions) {
  if (at.work == nullptr) return {};
  std::map<std::string, std::pair<const progress::Tightened*, std::vector<int>>> by_torque;
  for (const int position : positions) {
    if (!at.work->is_back(position)) continue;
    const auto* last = at.work->last_set(position);
    const auto torque = last == nullptr
                            ? Statement{}
                            : as::torque(*record::applied_torque(last->content), at.unit());
    auto& [line, which] = by_torque[torque.text];
    if (line == nullptr) line = last == nullptr ? at.work->done_at(position).back() : last;
    which.push_back(position);
  }
  std::vector<Statement> told;
  for (const auto& [torque, done] : by_torque) {
    const auto& [line, which] = done;
    told.push_back(torque.empty()
                       ? says("{} tightened to no torque that is on record (line {})",
                              as::numbers(which), as::line(line->stamp))
                       : says("{} tightened to {} (line {})", as::numbers(which),
                              as::torque(*record::applied_torque(line->content), at.unit()),
                              as::line(line->stamp)));
  }
  return told.empty() ? Statement{} : says("; {}", joined(told, ", "));
}

// What was tightened against a provisional torque is judged by its band; against nothing by nobody,
// so that the torque is part of what is decided.
void no_specification(const JointCase& at, Deviations& deviations) {
  for (const auto& group : finding::specification_groups(at.joint)) {
    if (group.specified != nullptr) continue;
    const auto done = tightened_to(at, group.positions);
    const auto& code = at.joint.joint->code;
    if (const auto provisional = finding::provisional_torque(at.joint)) {
      deviations.push_back(
          flag_group(kNoSpecification, Level::Check, at.joint, group.positions,
                     says("no specification; {} stands in, provisional, from finding{}",
                          as::torque(*provisional, at.unit()), as::wording(done.text)),
                     "look for the maker's figure; found is not right until somebody says so"));
      continue;
    }
    auto deviation = flag_group(
        kNoSpecification, Level::Hold, at.joint, group.positions,
        says("no specification, and no findings of grade A or B that agree to stand in{}{}", done,
             as::wording(done.text.empty() ? "" : ", held against nothing")),
        fmt::format("find the maker's figure and enter it: joint {} --spec ... --source ...",
                    code));
    if (!done.text.empty()) {
      deviation.what_to_do += fmt::format(
          "; where there is none, say on what that torque rests: settle {} --as use-as-is --why "
          "...",
          deviation.id);
    }
    deviations.push_back(std::move(deviation));
  }
}

void no_source(const JointCase& at, Deviations& deviations) {
  for (const auto& group : finding::specification_groups(at.joint)) {
    const auto* specified = group.specified;
    if (specified == nullptr || !specified->source.empty()) continue;
    deviations.push_back(flag_group(
        kNoSource, Level::Check, at.joint, group.positions,
        says("the specification {} names no source", as::procedure(specified->procedure)),
        fmt::format("enter it again with document, revision and page: joint {} --spec ... "
                    "--source ...",
                    at.joint.joint->code)));
  }
}

using Specifications = std::vector<const record::Entry<record::Specified>*>;

Statement source_of(const record::Specified& specified) {
  return specified.source.empty() ? as::wording("no source") : as::name(specified.source);
}

// Says which of them disagree with the latest; nothing where none does.
std::optional<Statement> disagreement(const Specifications& specifications,
                                      quantity::Percent default_tolerance) {
  if (specifications.empty()) return std::nullopt;
  const auto& latest = specifications.back()->content;
  std::vector<Statement> others;
  for (const auto* entry : specifications) {
    if (record::ask_the_same(entry->content.procedure, latest.procedure, default_tolerance)) {
      continue;
    }
    others.push_back(says("{} (line {}, {})", as::procedure(entry->content.procedure),
                          as::line(entry->stamp), source_of(entry->content)));
  }
  if (others.empty()) return std::nullopt;
  const auto rest = joined(others, "; ");
  auto told = says("the latest specification {} (line {}, {}) counts and disagrees with {}",
                   as::procedure(latest.procedure), as::line(specifications.back()->stamp),
                   source_of(latest), rest);
  told.old_text = says("the latest specification {} ({}) disagrees with {}",
                       as::procedure(latest.procedure), source_of(latest), rest)
                      .as_of_old();
  return told;
}

// One for the whole joint and one for a position are no disagreement: the position's is the
// exception.
void sources_disagree(const JointCase& at, Deviations& deviations) {
  const auto default_tolerance = at.whole.job.start.default_tolerance;
  const auto what_to_do = [&] {
    return has_two_meanings(at.whole.job, at.joint.joint->code)
               ? "settle first what the code means (two-meanings): each may be right for a joint "
                 "of "
                 "its own; strike none before"
               : "decide which document holds for this machine and strike the other line";
  };
  if (const auto says = disagreement(at.joint.specifications, default_tolerance)) {
    deviations.push_back(flag_joint(kSourcesDisagree, Level::Hold, at.joint, *says, what_to_do()));
  }
  std::map<std::string, std::pair<Statement, std::vector<int>>> by_what_is_said;
  for (const auto& position : at.joint.positions) {
    if (auto says = disagreement(position.own_specifications, default_tolerance)) {
      auto& alike = by_what_is_said[says->text];
      alike.first = std::move(*says);
      alike.second.push_back(position.position);
    }
  }
  for (const auto& [text, alike] : by_what_is_said) {
    deviations.push_back(flag_positions(kSourcesDisagree, Level::Hold, at.joint, alike.second,
                                        alike.first, what_to_do()));
  }
}

// The same torque stretches an oiled fastener much further than a dry one.
void condition_mismatch(const JointCase& at, Deviations& deviations) {
  if (at.joint.specifications.size() < 2) return;
  const auto& latest = at.joint.specifications.back()->content;
  std::vector<Statement> others;
  for (const auto* entry : at.joint.specifications) {
    const auto& other = entry->content;
    if (other.condition == latest.condition || other.positions != latest.positions) continue;
    if (!record::ask_the_same(other.procedure, latest.procedure,
                              at.whole.job.start.default_tolerance)) {
      continue;  // they disagree as it is
    }
    others.push_back(
        says("{} (line {})", as::name(fastener::name_of(other.condition)), as::line(entry->stamp)));
  }
  if (others.empty()) return;
  deviations.push_back(flag_joint(
      kConditionMismatch, Level::Hold, at.joint,
      says("{} is specified {} by the latest source and {} by another",
           as::procedure(latest.procedure), as::name(fastener::name_of(latest.condition)),
           joined(others, ", ")),
      "find out for which condition the torque is meant and strike the other line; it is never "
      "converted"));
}

// What the position was last tightened with was entered before this line.
bool is_from_before(const JointCase& at, int position, const record::Stamp& line) {
  const auto& done = at.work->done_at(position);
  return at.work->is_back(position) &&
         std::ranges::all_of(done, [&](const auto* entry) { return entry->stamp.id < line.id; });
}

// What was entered anew after the work: the torque is judged by it, what else it says is not.
void corrected_after(const JointCase& at, Deviations& deviations) {
  if (at.work == nullptr) return;
  struct Later {
    const record::Stamp* line = nullptr;  // the last that was entered
    std::vector<int> positions;
  };
  std::map<std::string_view, Later> later;  // by what was entered anew
  const auto look = [&](int position, const record::Stamp& line, std::string_view what) {
    if (!is_from_before(at, position, line)) return;
    auto& found = later[what];
    if (found.line == nullptr || found.line->id < line.id) found.line = &line;
    found.positions.push_back(position);
  };
  for (const auto& position : at.joint.positions) {
    look(position.position, at.joint.entry->stamp, "joint");
    const auto& own = position.own_specifications;
    const auto& all = own.empty() ? at.joint.specifications : own;
    if (!all.empty()) look(position.position, all.back()->stamp, "specification");
  }
  for (const auto& [what, found] : later) {
    auto deviation = flag_part(
        kCorrectedAfter, Level::Check, at.joint, what,
        says("{} was tightened before the {} was entered as it is now (line {})",
             as::numbers(found.positions), as::wording(what), as::line(*found.line)),
        fmt::format("the torque is judged by what it says now; whether size, length, grade and "
                    "condition were right no torque tells: look what was changed (history {}), "
                    "and take it apart again where that was wrong",
                    at.joint.joint->code));
    deviation.positions = found.positions;
    deviations.push_back(std::move(deviation));
  }
}

}  // namespace

constinit const Rule kConditionMismatch{
    "condition mismatch", "one torque specified for two conditions, threadlocker among them",
    condition_mismatch};
constinit const Rule kNoSpecification{"no specification", "joints without a specification",
                                      no_specification};
constinit const Rule kNoSource{"no source", "specifications without document, revision or page",
                               no_source};
constinit const Rule kSourcesDisagree{
    "sources disagree", "specifications of one joint that are not the same", sources_disagree};

constinit const Rule kCorrectedAfter{
    "corrected after work", "joints and specifications entered anew after they were tightened",
    corrected_after, kRestsOn<record::Tightening>};

}  // namespace audit
