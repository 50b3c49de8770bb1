#include "progress/teardown.h"

#include <algorithm>

#include "finding/next_setting.h"
#include "finding/ways_out.h"
#include "record/address.h"

namespace progress {
namespace {

using Place = Teardown::key_type;

Place place_of(std::string_view joint, int position) {
  return {record::folded_code(joint), position};
}

// When each position was last tightened.
class LastTightened {
 public:
  explicit LastTightened(const record::Job& job) {
    for (const auto& entry : job.tightenings) {
      if (record::is_skipped(entry.content)) continue;
      for (const int position : entry.content.positions) {
        auto& last = last_[place_of(entry.content.joint, position)];
        if (last == nullptr || record::is_later(entry.stamp, *last)) last = &entry.stamp;
      }
    }
  }

  [[nodiscard]] bool before(const record::Stamp& stamp, const Place& place) const {
    const auto found = last_.find(place);
    return found == last_.end() || !record::is_later(*found->second, stamp);
  }

 private:
  std::map<Place, const record::Stamp*> last_;
};

template <class Content>
void keep_later(const record::Entry<Content>*& latest, const record::Entry<Content>& entry) {
  if (latest == nullptr || record::is_later(entry.stamp, latest->stamp)) latest = &entry;
}

// Where lines of copies that were apart do not say the same of how a position came out, the latest
// of them is not all.
void read_outs_together(const record::Job& job, const LastTightened& tightened,
                        Teardown& teardown) {
  std::map<Place, finding::Outs> outs;
  for (const auto& entry : job.removals) {
    for (const int position : entry.content.positions) {
      const auto place = place_of(entry.content.joint, position);
      if (tightened.before(entry.stamp, place)) outs[place].push_back(&entry);
    }
  }
  for (auto& [place, of_it] : outs) {
    if (!finding::are_of_several_copies(job.apart, of_it)) continue;
    const auto* joint = record::joint_in(job, place.first);
    if (joint == nullptr) continue;
    std::ranges::sort(
        of_it, [](const auto* a, const auto* b) { return record::is_earlier(a->stamp, b->stamp); });
    auto& state = teardown[place];
    state.read_together = finding::read_together(*joint, of_it);
    if (state.read_together != nullptr) state.removal = state.read_together.get();
  }
}

}  // namespace

Teardown teardown_of(const record::Job& job) {
  const LastTightened tightened(job);
  Teardown teardown;
  for (const auto& entry : job.removals) {
    for (const int position : entry.content.positions) {
      const auto place = place_of(entry.content.joint, position);
      if (tightened.before(entry.stamp, place)) keep_later(teardown[place].removal, entry);
    }
  }
  if (!job.apart.is_empty()) read_outs_together(job, tightened, teardown);
  for (const auto& entry : job.findings) {
    const auto place = place_of(entry.content.joint, entry.content.position);
    if (tightened.before(entry.stamp, place)) keep_later(teardown[place].finding, entry);
  }
  for (const auto& entry : job.pulls) {
    const auto place = place_of(entry.content.joint, entry.content.position);
    if (!tightened.before(entry.stamp, place)) continue;
    auto& state = teardown[place];
    const bool is_gathered =
        state.finding != nullptr && !record::is_later(entry.stamp, state.finding->stamp);
    if (!is_gathered) state.pulls.push_back(&entry);
  }
  for (auto& [place, state] : teardown) {
    std::ranges::sort(state.pulls, [](const auto* a, const auto* b) {
      return record::is_earlier(a->stamp, b->stamp);
    });
  }
  return teardown;
}

const PositionTeardown& at(const Teardown& teardown, std::string_view joint, int position) {
  static const PositionTeardown kNothing;
  const auto found = teardown.find(place_of(joint, position));
  return found == teardown.end() ? kNothing : found->second;
}

bool is_finished(const PositionTeardown& teardown) {
  if (teardown.removal == nullptr || !teardown.pulls.empty()) return false;
  return teardown.finding != nullptr || finding::nothing_to_search(teardown.removal->content);
}

}  // namespace progress
