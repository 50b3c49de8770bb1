#include "words/joint_bolt.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <vector>

#include "fastener/bolt_assessment.h"
#include "finding/known_bolt.h"
#include "finding/part_check.h"
#include "finding/specification_group.h"
#include "quantity/number_text.h"
#include "record/address.h"

namespace words {
namespace {

struct InCondition {
  fastener::Condition condition;
  fastener::BoltAssessment bolt;
};

// The bolt once for each condition, in the order of the positions; never empty.
std::vector<InCondition> assessed(const finding::JointState& joint,
                                  const finding::KnownBolt& known) {
  std::vector<InCondition> bolts;
  for (const auto& group : finding::specification_groups(joint)) {
    const auto condition =
        group.specified == nullptr ? fastener::Condition::AsReceived : group.specified->condition;
    if (std::ranges::find(bolts, condition, &InCondition::condition) != bolts.end()) continue;
    bolts.push_back(
        {condition, fastener::assess({known.thread, known.grade, condition, {}, {}, {}, {}})});
  }
  return bolts;
}

std::string kilonewtons(quantity::Force force) {
  return quantity::write_rounded(force.in_newtons() / 1000.0) + " kN";
}

std::string advice_text(const InCondition& in, quantity::TorqueUnit unit) {
  if (!in.bolt.advice) {
    return fmt::format("{}: no friction is known, so no band is worked out",
                       fastener::name_of(in.condition));
  }
  const auto& [low, high] = in.bolt.advice->plausible;
  return fmt::format(
      "{}: plausible {} to {}, yields for certain at {}", fastener::name_of(in.condition),
      quantity::write_rounded(quantity::in_unit(low, unit)), quantity::write_rounded(high, unit),
      quantity::write_rounded(in.bolt.advice->yields_at, unit));
}

}  // namespace

std::string joint_bolt_text(const finding::JointState& joint, quantity::TorqueUnit unit,
                            const Page& page) {
  const auto known = finding::known_bolt(*joint.joint);
  if (!known) {
    return wrapped("nothing is known of this size and grade, so no band is worked out", page.width,
                   "  ", "  ");
  }
  const auto bolts = assessed(joint, *known);
  std::string text = fmt::format(
      "{} at {} MPa, yield {}",
      (known->strength.proof ? "proof " : "0.85 of yield ") +
          kilonewtons(bolts.front().bolt.proof_load),
      quantity::write_rounded(fastener::proof_basis(known->strength).stress.in_megapascals()),
      kilonewtons(bolts.front().bolt.yield_load));
  for (const auto& in : bolts) text += "; " + advice_text(in, unit);
  text = wrapped(text, page.width, "  ", "    ");
  for (const auto& says : part_sentences(joint)) text += wrapped(says, page.width, "  ", "    ");
  return text;
}

std::vector<std::string> part_sentences(const finding::JointState& joint) {
  std::vector<std::string> sentences;
  const auto groups = finding::specification_groups(joint);
  for (const auto& group : groups) {
    for (const auto& answer : finding::part_answers(*joint.joint, group.specified)) {
      auto says =
          groups.size() == 1
              ? answer.says
              : fmt::format("{}: {}", record::write_positions(group.positions), answer.says);
      if (std::ranges::find(sentences, says) == sentences.end()) {
        sentences.push_back(std::move(says));
      }
    }
  }
  return sentences;
}

nlohmann::ordered_json joint_bolt_json(const finding::JointState& joint) {
  const auto known = finding::known_bolt(*joint.joint);
  if (!known) return nullptr;
  const auto bolts = assessed(joint, *known);
  auto conditions = nlohmann::ordered_json::array();
  for (const auto& in : bolts) {
    nlohmann::ordered_json row = {{"condition", fastener::name_of(in.condition)},
                                  {"plausible_nm", nullptr},
                                  {"yields_at_nm", nullptr}};
    if (const auto& advice = in.bolt.advice) {
      row["plausible_nm"] = {{"low", advice->plausible.low.in_newton_metres()},
                             {"high", advice->plausible.high.in_newton_metres()}};
      row["yields_at_nm"] = advice->yields_at.in_newton_metres();
    }
    conditions.push_back(std::move(row));
  }
  return {{"proof_load_n", bolts.front().bolt.proof_load.in_newtons()},
          {"yield_load_n", bolts.front().bolt.yield_load.in_newtons()},
          {"conditions", std::move(conditions)}};
}

}  // namespace words
