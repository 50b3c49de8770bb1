#include "act/shrunk_joint.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <cstdint>
#include <numeric>
#include <set>
#include <vector>

#include "record/address.h"
#include "record/concerns.h"

namespace act {

ShrunkJoint shrunk(const record::Joint& before, const record::Joint& after,
                   const record::Job& job) {
  if (after.count >= before.count || !record::same_code(before.code, after.code)) return {};
  std::set<std::int64_t> strays;
  record::for_each_entry(job, [&](const auto& entry) {
    if (record::stands_beyond(entry.content, before.code, after.count)) {
      strays.insert(entry.stamp.line);
    }
  });
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
