#include "screen/joint_statistics.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <vector>

#include "quantity/number_text.h"

namespace screen {
namespace {

using fastener::Shown;
using finding::Verdict;

std::string_view name_of(Shown shown) {
  switch (shown) {
    case Shown::Keeps:
      return "keeps";
    case Shown::Misses:
      return "misses";
    case Shown::Undecided:
      return "undecided";
  }
  return "";
}

std::string shown_text(const fastener::Capability& capability) {
  if (capability.shown == Shown::Keeps) {
    return "95 % of such fasteners keep the tolerance, with 95 % confidence";
  }
  if (capability.shown == Shown::Misses) {
    return "their mean lies outside the tolerance, with 95 % confidence";
  }
  if (!capability.tests_needed) {
    return "they scatter too much to show that 95 % keep the tolerance, however many are tested";
  }
  return fmt::format("{} tests in all would show whether 95 % of such fasteners keep the tolerance",
                     *capability.tests_needed);
}

}  // namespace

std::optional<JointStatistics> joint_statistics(const finding::JointState& joint) {
  std::vector<double> torques;
  std::optional<fastener::Tolerance> tolerance;
  for (const auto& position : joint.positions) {
    const auto* finding = position.finding();
    if (finding == nullptr || finding->verdict == Verdict::NotComparable || !finding->torque.best ||
        !position.window || !position.window->low || !position.window->high) {
      continue;
    }
    const fastener::Tolerance own{position.window->low->in_newton_metres(),
                                  position.window->high->in_newton_metres()};
    if (tolerance && (tolerance->low != own.low || tolerance->high != own.high)) {
      return std::nullopt;
    }
    tolerance = own;
    auto clamping = *finding->torque.best;
    if (const auto& running = finding->entry->content.prevailing) {
      clamping = clamping - running->torque();
    }
    torques.push_back(clamping.in_newton_metres());
  }
  if (torques.empty()) return std::nullopt;
  const auto sample = fastener::sample_of(torques);
  const auto capability = fastener::capability_of(sample, *tolerance);
  if (!capability) return std::nullopt;
  return JointStatistics{sample, *tolerance, *capability};
}

std::string statistics_text(const JointStatistics& statistics, quantity::TorqueUnit unit) {
  const auto in_unit = [&](double newton_metres) {
    return quantity::in_unit(quantity::Torque::newton_metres(newton_metres), unit);
  };
  const auto& [torques, tolerance, capability] = statistics;
  return fmt::format("{} torques: mean {}, s {} {}, capability Cpk {:.2f} (at least {:.2f}); {}",
                     torques.count, quantity::write_rounded(in_unit(torques.mean), 3),
                     quantity::write_uncertainty(in_unit(torques.deviation)),
                     quantity::name_of(unit), capability.cpk, capability.cpk_low,
                     shown_text(capability));
}

nlohmann::ordered_json statistics_json(const JointStatistics& statistics) {
  const auto& [torques, tolerance, capability] = statistics;
  nlohmann::ordered_json json = {{"tests", torques.count},
                                 {"mean_nm", torques.mean},
                                 {"deviation_nm", torques.deviation},
                                 {"cp", capability.cp},
                                 {"cpk", capability.cpk},
                                 {"cpk_low", capability.cpk_low},
                                 {"shown", name_of(capability.shown)},
                                 {"tests_needed", nullptr}};
  if (capability.tests_needed) json["tests_needed"] = *capability.tests_needed;
  return json;
}

}  // namespace screen
