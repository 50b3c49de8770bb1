#include <fmt/format.h>

#include <map>

#include "audit/flag.h"
#include "audit/rules.h"
#include "finding/specification_group.h"
#include "record/same_specification.h"

namespace audit {
namespace {

void no_specification(const Case& subject, std::vector<Deviation>& deviations) {
  for (const auto& joint : subject.survey.joints) {
    for (const auto& group : finding::specification_groups(joint)) {
      if (group.specified != nullptr) continue;
      if (const auto provisional = finding::provisional_torque(joint)) {
        deviations.push_back(
            flag_group(kNoSpecification, Level::Check, joint, group.positions,
                       fmt::format("no specification; {} stands in, provisional, from finding",
                                   torque_text(subject, *provisional)),
                       "look for the maker's figure; found is not right until somebody says so"));
      } else {
        deviations.push_back(flag_group(
            kNoSpecification, Level::Hold, joint, group.positions,
            "no specification, and no findings of grade A or B that agree to stand in",
            fmt::format("find the maker's figure and enter it: joint {} --spec ... --source ...",
                        joint.joint->code)));
      }
    }
  }
}

void no_source(const Case& subject, std::vector<Deviation>& deviations) {
  for (const auto& joint : subject.survey.joints) {
    for (const auto& group : finding::specification_groups(joint)) {
      const auto* specified = group.specified;
      if (specified == nullptr || !specified->source.empty()) continue;
      deviations.push_back(
          flag_group(kNoSource, Level::Check, joint, group.positions,
                     fmt::format("the specification {} names no source",
                                 record::write_exact(specified->procedure)),
                     fmt::format("enter it again with document, revision and page: joint {} --spec "
                                 "... --source ...",
                                 joint.joint->code)));
    }
  }
}

using Specifications = std::vector<const record::Entry<record::Specified>*>;

// Says which of them disagree with the latest; nothing where none does.
std::optional<std::string> disagreement(const Specifications& specifications,
                                        quantity::Percent default_tolerance) {
  if (specifications.empty()) return std::nullopt;
  const auto& latest = specifications.back()->content;
  std::string others;
  for (const auto* entry : specifications) {
    if (record::ask_the_same(entry->content.procedure, latest.procedure, default_tolerance)) {
      continue;
    }
    others += fmt::format("{}{} (line {}, {})", others.empty() ? "" : "; ",
                          record::write_exact(entry->content.procedure), entry->stamp.line,
                          entry->content.source.empty() ? "no source" : entry->content.source);
  }
  if (others.empty()) return std::nullopt;
  return fmt::format("the latest specification {} ({}) disagrees with {}",
                     record::write_exact(latest.procedure),
                     latest.source.empty() ? "no source" : latest.source, others);
}

// One for the whole joint and one for a position are no disagreement: the position's is the
// exception.
void sources_disagree(const Case& subject, std::vector<Deviation>& deviations) {
  const auto default_tolerance = subject.job.start.default_tolerance;
  constexpr const char* kDo =
      "decide which document holds for this machine and strike the other line";
  for (const auto& joint : subject.survey.joints) {
    if (const auto says = disagreement(joint.specifications, default_tolerance)) {
      deviations.push_back(flag_joint(kSourcesDisagree, Level::Hold, joint, *says, kDo));
    }
    std::map<std::string, std::vector<int>> positions_by_what_is_said;
    for (const auto& position : joint.positions) {
      if (const auto says = disagreement(position.own_specifications, default_tolerance)) {
        positions_by_what_is_said[*says].push_back(position.position);
      }
    }
    for (const auto& [says, positions] : positions_by_what_is_said) {
      deviations.push_back(
          flag_positions(kSourcesDisagree, Level::Hold, joint, positions, says, kDo));
    }
  }
}

// The same torque stretches an oiled fastener much further than a dry one.
void condition_mismatch(const Case& subject, std::vector<Deviation>& deviations) {
  for (const auto& joint : subject.survey.joints) {
    if (joint.specifications.size() < 2) continue;
    const auto& latest = joint.specifications.back()->content;
    std::string others;
    for (const auto* entry : joint.specifications) {
      const auto& other = entry->content;
      if (other.condition == latest.condition || other.positions != latest.positions) continue;
      if (!record::ask_the_same(other.procedure, latest.procedure,
                                subject.job.start.default_tolerance)) {
        continue;  // they disagree as it is
      }
      others += fmt::format("{}{} (line {})", others.empty() ? "" : ", ",
                            fastener::name_of(other.condition), entry->stamp.line);
    }
    if (others.empty()) continue;
    deviations.push_back(flag_joint(
        kConditionMismatch, Level::Hold, joint,
        fmt::format("{} is specified {} by the latest source and {} by another",
                    record::write_exact(latest.procedure), fastener::name_of(latest.condition),
                    others),
        "find out for which condition the torque is meant and strike the other line; it is never "
        "converted"));
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

}  // namespace audit
