#include "plan/broken_loose.h"

#include <algorithm>
#include <unordered_map>
#include <vector>

#include "record/address.h"

namespace plan {
namespace {

struct Happened {
  enum class What { CameOut, Tightened, Tested };
  What what = What::CameOut;
  const record::Stamp* stamp = nullptr;
};

bool tightens(const record::Tightening& work) {
  return record::is_work(work) && work.target.kind != record::PassKind::Loosen;
}

TestedAgain told(const std::vector<Happened>& in_order) {
  TestedAgain again;
  const record::Stamp* tightened = nullptr;
  for (const auto& [what, stamp] : in_order) {
    switch (what) {
      case Happened::What::CameOut:
        tightened = nullptr;
        again.is_out_since = again.test != nullptr;
        break;
      case Happened::What::Tightened:
        tightened = stamp;
        break;
      case Happened::What::Tested:
        if (tightened != nullptr) again = {stamp, tightened, false};
        break;
    }
  }
  return again;
}

}  // namespace

BrokenLoose::BrokenLoose(const record::Job& job) {
  // When each joint was first tightened, by folded code: no test before that broke loose what was.
  std::unordered_map<std::string, const record::Stamp*> first_tightened;
  for (const auto& entry : job.tightenings) {
    if (!tightens(entry.content)) continue;
    auto& first = first_tightened[record::folded_code(entry.content.joint)];
    if (first == nullptr || record::is_earlier(entry.stamp, *first)) first = &entry.stamp;
  }
  if (first_tightened.empty()) return;
  std::map<std::pair<std::string, int>, std::vector<Happened>> places;
  const auto add_tests = [&](const auto& entries) {
    for (const auto& entry : entries) {
      auto code = record::folded_code(entry.content.joint);
      const auto first = first_tightened.find(code);
      if (first == first_tightened.end() || record::is_earlier(entry.stamp, *first->second)) {
        continue;
      }
      places[{std::move(code), entry.content.position}].push_back(
          {Happened::What::Tested, &entry.stamp});
    }
  };
  add_tests(job.findings);
  add_tests(job.pulls);
  if (places.empty()) return;
  const auto add = [&](const auto& entry, Happened::What what) {
    auto of_joint = std::pair(record::folded_code(entry.content.joint), 0);
    const auto first = places.lower_bound(of_joint);
    if (first == places.end() || first->first.first != of_joint.first) return;
    for (const int position : entry.content.positions) {
      of_joint.second = position;
      const auto place = places.find(of_joint);
      if (place != places.end()) place->second.push_back({what, &entry.stamp});
    }
  };
  for (const auto& entry : job.removals) add(entry, Happened::What::CameOut);
  for (const auto& entry : job.tightenings) {
    if (tightens(entry.content)) add(entry, Happened::What::Tightened);
  }
  for (auto& [place, happened] : places) {
    std::ranges::sort(happened, [](const Happened& a, const Happened& b) {
      return record::is_earlier(*a.stamp, *b.stamp);
    });
    const auto again = told(happened);
    if (again.test != nullptr) places_[place] = again;
  }
}

const TestedAgain& BrokenLoose::at(std::string_view joint, int position) const {
  static const TestedAgain kNone;
  if (places_.empty()) return kNone;
  const auto found = places_.find({record::folded_code(joint), position});
  return found == places_.end() ? kNone : found->second;
}

}  // namespace plan
