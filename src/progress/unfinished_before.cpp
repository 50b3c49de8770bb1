#include "progress/unfinished_before.h"

#include <fmt/format.h>

#include <algorithm>

#include "record/address.h"

namespace progress {
namespace {

using Kind = plan::Precedence::Kind;

bool is_met(const Progress& progress, const plan::Precedence& precedence) {
  return std::ranges::none_of(progress.steps(), [&](const Step& step) {
    const bool counts =
        precedence.kind == Kind::Covers || step.joint->stage == plan::Stage::AtItsTurn;
    return counts && step.stands != Step::Stands::Done &&
           record::same_code(step.joint->state->joint->code, precedence.first);
  });
}

}  // namespace

std::vector<plan::Precedence> unfinished_before(const Progress& progress,
                                                const record::Joint& joint) {
  std::vector<plan::Precedence> unmet;
  for (const auto& [firsts, kind] :
       {std::pair{&joint.after, Kind::After}, std::pair{&joint.covers, Kind::Covers}}) {
    for (const auto& first : *firsts) {
      plan::Precedence precedence{joint.code, kind, first};
      if (!is_met(progress, precedence)) unmet.push_back(std::move(precedence));
    }
  }
  return unmet;
}

std::string in_words(const plan::Precedence& unmet) {
  return fmt::format("{} {} {}, and {} is not finished", unmet.code,
                     unmet.kind == Kind::Covers ? "covers" : "comes after", unmet.first,
                     unmet.first);
}

std::vector<Unmarked> unmarked_before(const Progress& progress, const finding::Survey& survey,
                                      const record::Joint& cover) {
  std::vector<Unmarked> list;
  for (const auto& state : survey.joints) {
    const auto& joint = *state.joint;
    if (std::ranges::none_of(cover.covers, [&](const std::string& covered) {
          return record::same_code(covered, joint.code);
        })) {
      continue;
    }
    Unmarked unmarked{cover.code, joint.code, {}, {}};
    for (const auto& position : state.positions) {
      if (!progress.has_final_value(joint.code, position.position)) continue;
      const auto finish = progress.finish_of(joint.code, position.position);
      if (joint.critical && finish.second_check == nullptr) {
        unmarked.unchecked.push_back(position.position);
      }
      if (finish.stripe == nullptr) unmarked.unstriped.push_back(position.position);
    }
    if (!unmarked.unchecked.empty() || !unmarked.unstriped.empty()) {
      list.push_back(std::move(unmarked));
    }
  }
  return list;
}

std::string in_words(const Unmarked& unmarked) {
  std::string lacks;
  if (!unmarked.unchecked.empty()) {
    lacks = fmt::format("{} is not checked by a second person yet",
                        record::write_address(unmarked.joint, unmarked.unchecked));
  }
  if (!unmarked.unstriped.empty()) {
    lacks += fmt::format("{}{} has no final stripe yet", lacks.empty() ? "" : " and ",
                         record::write_address(unmarked.joint, unmarked.unstriped));
  }
  return fmt::format("{} covers {}, and {}", unmarked.cover, unmarked.joint, lacks);
}

}  // namespace progress
