#include "act/under_cover.h"

#include "progress/cover_times.h"
#include "progress/reassembly.h"

namespace act {

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

}  // namespace act
