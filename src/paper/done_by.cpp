#include "paper/done_by.h"

#include <fmt/format.h>

#include <algorithm>

#include "paper/from_to.h"
#include "record/address.h"

namespace paper {
namespace {

struct Share {
  const std::string* by = nullptr;
  std::vector<int> positions;
  record::Moment first;
  record::Moment last;
};

void add(std::vector<Share>& shares, const DoneAt& done) {
  const auto& stamp = *done.stamp;
  auto known =
      std::ranges::find_if(shares, [&](const auto& share) { return *share.by == stamp.by; });
  if (known == shares.end()) {
    known = shares.insert(shares.end(), {&stamp.by, {}, stamp.done_at, stamp.done_at});
  }
  known->positions.push_back(done.position);
  known->first = std::min(known->first, stamp.done_at);
  known->last = std::max(known->last, stamp.done_at);
}

}  // namespace

std::vector<std::string> done_by(const std::vector<DoneAt>& done) {
  std::vector<Share> shares;
  for (const auto& each : done) add(shares, each);
  std::vector<std::string> lines;
  for (auto& share : shares) {
    std::ranges::sort(share.positions);
    lines.push_back(fmt::format("{} by {}, {}", record::write_positions(share.positions), *share.by,
                                from_to(share.first, share.last)));
  }
  return lines;
}

}  // namespace paper
