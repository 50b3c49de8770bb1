#include "act/shrunk_joint.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cstdint>
#include <numeric>
#include <set>
#include <vector>

#include "record/address.h"

namespace act {
namespace {

bool stands_beyond(const std::vector<int>& positions, int count) {
  return std::ranges::any_of(positions, [&](int position) { return position > count; });
}
bool stands_beyond(const std::optional<int>& position, int count) {
  return position && *position > count;
}

}  // namespace

ShrunkJoint shrunk(const record::Joint& before, const record::Joint& after,
                   const record::Job& job) {
  if (after.count >= before.count || !record::same_code(before.code, after.code)) return {};
  std::set<std::int64_t> strays;
  const auto look_at = [&](const auto& entries, auto where) {
    for (const auto& entry : entries) {
      if (record::same_code(entry.content.joint, before.code) &&
          stands_beyond(entry.content.*where, after.count)) {
        strays.insert(entry.stamp.line);
      }
    }
  };
  look_at(job.specifications, &record::Specified::positions);
  look_at(job.removals, &record::Removal::positions);
  look_at(job.findings, &record::Measured::position);
  look_at(job.pulls, &record::Pull::position);
  look_at(job.renewals, &record::Renewal::positions);
  look_at(job.tightenings, &record::Tightening::positions);
  look_at(job.stripes, &record::FinalStripe::positions);
  look_at(job.rechecks, &record::Recheck::positions);
  look_at(job.dispositions, &record::Disposition::position);
  std::vector<int> gone(static_cast<std::size_t>(before.count - after.count));
  std::iota(gone.begin(), gone.end(), after.count + 1);
  auto text = fmt::format("{} had {} positions and now has {}: {}/{} {} no more", before.code,
                          before.count, after.count, before.code, record::write_positions(gone),
                          gone.size() == 1 ? "is" : "are");
  if (!strays.empty()) {
    text += fmt::format(
        ", and {} {} {} of them; what they say stays in the history and counts "
        "nowhere else",
        strays.size() == 1 ? "line" : "lines", fmt::join(strays, ", "),
        strays.size() == 1 ? "speaks" : "speak");
  }
  return {text, !strays.empty()};
}

}  // namespace act
