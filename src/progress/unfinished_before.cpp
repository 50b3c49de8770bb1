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

}  // namespace progress
