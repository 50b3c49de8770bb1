#include "tables/tested_places.h"

#include <fmt/format.h>

#include <algorithm>

#include "record/address.h"

namespace tables {
namespace {

// Marks it and tells whether it was marked before.
bool mark(std::vector<bool>& marks, int position) {
  const auto place = static_cast<std::size_t>(position);
  if (marks.size() <= place) marks.resize(place + 1, false);
  const bool before = marks[place];
  marks[place] = true;
  return before;
}

}  // namespace

TestedPlaces::TestedPlaces(const record::Job& job) {
  for (const auto& entry : job.findings) {
    mark(tested_[record::folded_code(entry.content.joint)], entry.content.position);
  }
  for (const auto& entry : job.tightenings) {
    if (record::is_work(entry.content)) {
      has_gone_back_.insert(record::folded_code(entry.content.joint));
    }
  }
}

void TestedPlaces::add(const record::Measured& test) {
  const auto code = record::folded_code(test.joint);
  if (!mark(tested_[code], test.position) || has_gone_back_.contains(code)) return;
  auto& positions = again_[test.joint];
  if (std::ranges::find(positions, test.position) == positions.end()) {
    positions.push_back(test.position);
  }
}

std::vector<std::string> TestedPlaces::remarks() const {
  std::vector<std::string> remarks;
  for (auto [code, positions] : again_) {
    std::ranges::sort(positions);
    remarks.push_back(fmt::format(
        "{} {} tested already. All of it stands, and the latest counts; the audit names the lines, "
        "and where one puts another right: strike LINE --why TEXT",
        record::write_address(code, positions), positions.size() == 1 ? "was" : "were"));
  }
  return remarks;
}

}  // namespace tables
