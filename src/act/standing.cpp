#include "act/standing.h"

namespace act {

Standing::Standing(const logbook::Logbook& logbook, const std::string& code)
    : job(logbook.job_of(code)),
      survey(finding::survey(job)),
      joint(finding::joint_in(survey, code)),
      teardown(progress::teardown_of(job)) {}

}  // namespace act
