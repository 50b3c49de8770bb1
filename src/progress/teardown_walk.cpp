#include "progress/teardown_walk.h"

#include <numeric>

#include "finding/next_setting.h"

namespace progress {
namespace {

bool has_something_to_test(const PositionTeardown& teardown) {
  return teardown.removal == nullptr || !finding::nothing_to_search(teardown.removal->content);
}

}  // namespace

TeardownWalk::TeardownWalk(const record::Joint& joint, std::vector<int> named)
    : joint_(joint.code), positions_(std::move(named)) {
  if (positions_.size() == 1) again_ = positions_.front();
  if (!positions_.empty()) return;
  positions_.resize(static_cast<std::size_t>(joint.count));
  std::iota(positions_.begin(), positions_.end(), 1);
}

std::optional<int> TeardownWalk::next(const Teardown& teardown) const {
  if (again_ && has_something_to_test(at(teardown, joint_, *again_))) return again_;
  std::optional<int> next;
  for (const int position : positions_) {
    const auto& state = at(teardown, joint_, position);
    if (skipped_.contains(position) || is_done(teardown, position)) continue;
    if (!state.pulls.empty()) return position;
    if (!next) next = position;
  }
  return next;
}

bool TeardownWalk::is_done(const Teardown& teardown, int position) const {
  const auto& state = at(teardown, joint_, position);
  if (is_finished(state)) return true;
  return untested_.contains(position) && state.removal != nullptr && state.pulls.empty();
}

std::vector<int> TeardownWalk::open(const Teardown& teardown) const {
  std::vector<int> open;
  for (const int position : positions_) {
    if (!is_done(teardown, position)) open.push_back(position);
  }
  return open;
}

void TeardownWalk::skip(int position) {
  skipped_.insert(position);
  again_.reset();
}

}  // namespace progress
