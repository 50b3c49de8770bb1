#include "act/chosen_joints.h"

#include "act/lookup.h"
#include "failure/failure.h"

namespace act {

record::Job job_about(const logbook::Logbook& logbook, const std::vector<std::string>& codes) {
  if (codes.size() == 1 && logbook.joint(codes.front())) return logbook.job_of(codes.front());
  return logbook.job();
}

std::vector<const finding::JointState*> chosen_joints(const finding::Survey& survey,
                                                      const std::vector<std::string>& codes) {
  std::vector<const finding::JointState*> chosen;
  if (codes.empty()) {
    for (const auto& joint : survey.joints) chosen.push_back(&joint);
    return chosen;
  }
  for (const auto& code : codes) {
    const auto* joint = finding::joint_in(survey, code);
    if (joint == nullptr) {
      std::vector<std::string> known;
      for (const auto& each : survey.joints) known.push_back(each.joint->code);
      throw failure::Refusal(no_such_joint(code, known));
    }
    chosen.push_back(joint);
  }
  return chosen;
}

std::vector<const finding::JointState*> joints_to_print(const finding::Survey& survey,
                                                        const std::vector<std::string>& codes) {
  auto chosen = chosen_joints(survey, codes);
  if (chosen.empty()) {
    throw failure::Refusal(
        "there is no joint in this logbook to print; enter one first: joint CODE ...");
  }
  return chosen;
}

}  // namespace act
