#include "progress/final_value.h"

#include <fmt/format.h>

#include <algorithm>

#include "plan/decided.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "record/current_decisions.h"

namespace progress {
namespace {

constexpr std::string_view kUnderTorquedRule = "under-torqued";

// Somebody decided after this line that the value which it left is used as it is.
bool is_used_so(const record::Job& job, const record::Entry<record::Tightening>& line,
                int position) {
  return std::ranges::any_of(record::current_decisions(job), [&](const auto& current) {
    const auto& decided = current.entry->content;
    return decided.decision == record::Decision::UseAsIs && decided.rule == kUnderTorquedRule &&
           record::same_code(decided.joint, line.content.joint) &&
           std::ranges::binary_search(current.positions, position) &&
           record::is_later(current.entry->stamp, line.stamp);
  });
}

}  // namespace

std::string why_left_alone(const Reassembly& reassembly, std::string_view joint,
                           const std::vector<int>& positions) {
  const plan::Decided decided(reassembly.job, reassembly.survey);
  std::vector<int> alone;
  std::vector<int> others;
  const record::Stamp* line = nullptr;
  for (const int position : positions) {
    const auto* left_alone = decided.at(joint, position).left_alone;
    (left_alone == nullptr ? others : alone).push_back(position);
    if (line == nullptr) line = left_alone;
  }
  if (alone.empty()) return {};
  std::ranges::sort(others);
  std::ranges::sort(alone);
  auto text =
      fmt::format("{} {} as found (decided in line {})", record::write_address(joint, alone),
                  alone.size() == 1 ? "stays" : "stay", line->line);
  return text + (others.empty()
                     ? fmt::format("; where a fastener is in, strike that: strike {} --why ...",
                                   line->line)
                     : "; write " + record::write_address(joint, others));
}

const record::Entry<record::Tightening>* ended_too_low(const record::Job& job,
                                                       const Progress& progress,
                                                       std::string_view joint, int position) {
  const auto* line = progress.ended_below(joint, position);
  return line == nullptr || is_used_so(job, *line, position) ? nullptr : line;
}

std::string why_not_final(const record::Job& job, const Progress& progress, std::string_view joint,
                          int position) {
  if (!progress.has_final_value(joint, position)) return {};
  const auto steps = progress.steps_of(joint, position);
  const auto where = record::write_address(joint, position);
  const auto open = std::ranges::find(steps, Step::Stands::Open, &Step::stands);
  if (open != steps.end()) {
    return fmt::format(
        "pass {0} of {1} is open, though a later one is done: slacken it and go on from there, "
        "tighten {2}; where it was done, enter it with its time: tighten {1} --pass {0} --at ...",
        (*open)->pass_number(), where, joint);
  }
  const auto* low = ended_too_low(job, progress, joint, position);
  if (low == nullptr) return {};
  const auto& done = low->content;
  return fmt::format(
      "{} ended at {}, below the least that is specified (line {}): tighten {} "
      "--pass {}",
      where, quantity::write_rounded(*record::applied_torque(done), done.unit), low->stamp.line,
      where, steps.back()->pass_number());
}

}  // namespace progress
