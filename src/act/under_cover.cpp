#include "act/under_cover.h"

#include <algorithm>

#include "progress/cover_times.h"
#include "progress/reassembly.h"

namespace act {
namespace {

// Calls for each joint that covers this one and of which something is in.
template <class Take>
void for_each_cover_in(const logbook::Logbook& logbook, const std::string& joint, Take&& take) {
  for (const auto& cover : logbook.covers_of(joint)) {
    const progress::SurveyedJob now(logbook.job_of(cover));
    for (const auto* state : progress::covers_to_open(now.job, now.survey, joint)) take(*state);
  }
}

}  // namespace

std::vector<std::string> remarks_under_cover(const logbook::Logbook& logbook,
                                             const std::string& joint, record::Moment done_at) {
  std::vector<std::string> remarks;
  for (const auto& cover : logbook.covers_of(joint)) {
    const progress::SurveyedJob now(logbook.job_of(cover));
    const progress::CoverTimes covers(now.job, now.survey, plan::Decided(now.job, now.survey));
    for (const auto& on : covers.over(joint, done_at)) {
      remarks.push_back(progress::in_words(on, joint) + "; recorded as it happened");
    }
  }
  return remarks;
}

std::vector<std::string> covers_off_first(const logbook::Logbook& logbook,
                                          const std::string& joint) {
  std::vector<std::string> first;
  for_each_cover_in(logbook, joint, [&](const finding::JointState& cover) {
    first.push_back(progress::comes_off_first(cover, joint));
  });
  return first;
}

std::vector<std::string> remarks_on_covers_in(const logbook::Logbook& logbook,
                                              const std::string& joint) {
  std::vector<std::string> remarks;
  for_each_cover_in(logbook, joint, [&](const finding::JointState& cover) {
    const auto never_out = [](const auto& position) { return position.removal == nullptr; };
    if (std::ranges::none_of(cover.positions, never_out)) return;
    remarks.push_back(progress::comes_off_first(cover, joint) + "; recorded as it happened");
  });
  return remarks;
}

}  // namespace act
