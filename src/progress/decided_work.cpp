#include "progress/decided_work.h"

#include <fmt/format.h>

#include <algorithm>

#include "finding/joint_index.h"
#include "plan/decided.h"
#include "plan/new_fasteners.h"
#include "record/address.h"
#include "record/current_decisions.h"

namespace progress {
namespace {

using record::Decision;

std::vector<int> all_positions(const finding::JointIndex& joints, const std::string& joint) {
  std::vector<int> positions;
  const auto* state = joints.find(joint);
  if (state == nullptr) return positions;
  for (const auto& position : state->positions) positions.push_back(position.position);
  return positions;
}

}  // namespace

std::vector<DecidedWork> decided_work(const record::Job& job, const finding::Survey& survey,
                                      const Progress* progress) {
  std::vector<DecidedWork> open;
  const auto decisions = record::current_decisions(job);
  if (decisions.empty()) return open;
  const finding::JointIndex joints(survey);
  const plan::NewFasteners new_fasteners(job, survey);
  const plan::Decided decided(job, survey);
  for (const auto& [entry, positions] : decisions) {
    const auto& stamp = entry->stamp;
    const auto& disposition = entry->content;
    const auto& joint = disposition.joint;
    switch (disposition.decision) {
      case Decision::UseAsIs:
        break;
      case Decision::Repair:
      case Decision::CorrectRecord:
        if (disposition.done.empty()) open.push_back({entry, positions, {}});
        break;
      case Decision::ReTorque:
      case Decision::Renew: {
        DecidedWork work{entry, positions.empty() ? all_positions(joints, joint) : positions, {}};
        std::erase_if(work.open, [&](int position) {
          const auto* done = disposition.decision == Decision::Renew
                                 ? new_fasteners.at(joint, position).went_in
                             : progress == nullptr ? nullptr
                                                   : progress->finish_of(joint, position).reached;
          return done != nullptr && record::is_later(*done, stamp);
        });
        if (work.open.empty()) break;
        if (disposition.decision == Decision::Renew) {
          for (const int position : work.open) {
            if (decided.at(joint, position).is_renewed_in_place) work.old_in.push_back(position);
          }
        }
        open.push_back(std::move(work));
        break;
      }
    }
  }
  return open;
}

std::string in_words(const DecidedWork& work) {
  const auto& [stamp, disposition] = *work.decision;
  auto text = fmt::format(
      "{}{}, decided in line {}", record::word_of(disposition.decision),
      work.open.empty() ? "" : fmt::format(" at {}", record::write_positions(work.open)),
      stamp.line);
  if (!work.old_in.empty()) {
    text += fmt::format(
        "; the old one is in at {}: \"boltwitness tighten {}\" leads to a new one and through its "
        "passes, or out {}, then fit the new one and tighten it",
        record::write_positions(work.old_in), disposition.joint,
        record::write_address(disposition.joint, work.old_in));
  }
  return text;
}

}  // namespace progress
