#include <fmt/format.h>

#include "audit/flag.h"
#include "audit/rules.h"

namespace audit {
namespace {

void no_specification(const Case& subject, std::vector<Deviation>& deviations) {
  for (const auto& joint : subject.survey.joints) {
    if (joint.specified() != nullptr) continue;
    if (const auto provisional = finding::provisional_torque(joint)) {
      deviations.push_back(
          flag_joint(kNoSpecification, Level::Check, joint,
                     fmt::format("no specification; {} stands in, provisional, from finding",
                                 torque_text(subject, *provisional)),
                     "look for the maker's figure; found is not right until somebody says so"));
    } else {
      deviations.push_back(flag_joint(
          kNoSpecification, Level::Hold, joint,
          "no specification, and no finding of grade A or B to stand in",
          fmt::format("find the maker's figure and enter it: joint {} --spec ... --source ...",
                      joint.joint->code)));
    }
  }
}

void no_source(const Case& subject, std::vector<Deviation>& deviations) {
  for (const auto& joint : subject.survey.joints) {
    const auto* specified = joint.specified();
    if (specified == nullptr || !specified->source.empty()) continue;
    deviations.push_back(
        flag_joint(kNoSource, Level::Check, joint,
                   fmt::format("the specification {} names no source",
                               record::write_exact(specified->procedure)),
                   fmt::format("enter it again with document, revision and page: joint {} --spec "
                               "... --source ...",
                               joint.joint->code)));
  }
}

void sources_disagree(const Case& subject, std::vector<Deviation>& deviations) {
  for (const auto& joint : subject.survey.joints) {
    if (joint.specifications.size() < 2) continue;
    const auto& latest = joint.specifications.back()->content;
    std::string others;
    for (const auto* entry : joint.specifications) {
      if (entry->content.procedure == latest.procedure) continue;
      others += fmt::format("{}{} (line {}, {})", others.empty() ? "" : "; ",
                            record::write_exact(entry->content.procedure), entry->stamp.line,
                            entry->content.source.empty() ? "no source" : entry->content.source);
    }
    if (others.empty()) continue;
    deviations.push_back(
        flag_joint(kSourcesDisagree, Level::Hold, joint,
                   fmt::format("the latest specification {} ({}) disagrees with {}",
                               record::write_exact(latest.procedure),
                               latest.source.empty() ? "no source" : latest.source, others),
                   "decide which document holds for this machine and strike the other line"));
  }
}

}  // namespace

constinit const Rule kNoSpecification{"no specification", "joints without a specification",
                                      no_specification};
constinit const Rule kNoSource{"no source", "specifications without document, revision or page",
                               no_source};
constinit const Rule kSourcesDisagree{
    "sources disagree", "specifications of one joint that are not the same", sources_disagree};

}  // namespace audit
