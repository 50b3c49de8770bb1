#pragma once

#include <string>
#include <vector>

#include "finding/survey.h"
#include "logbook/logbook.h"

namespace act {

// The job of the joints that were named: of one alone its own lines (Logbook::job_of), so that what
// concerns no other joint reads no other's. The whole where none was named, or several, or one that
// is not in the logbook.
[[nodiscard]] record::Job job_about(const logbook::Logbook& logbook,
                                    const std::vector<std::string>& codes);

// The joints that were named, in the order named, or all of them where none was. Refusal, with the
// nearest known code, for one that is not in the logbook; InputError for positions of one that is.
[[nodiscard]] std::vector<const finding::JointState*> chosen_joints(
    const finding::Survey& survey, const std::vector<std::string>& codes);

// The same for a page of joints; Refusal where the logbook has none, since it would be empty.
[[nodiscard]] std::vector<const finding::JointState*> joints_to_print(
    const finding::Survey& survey, const std::vector<std::string>& codes);

}  // namespace act
