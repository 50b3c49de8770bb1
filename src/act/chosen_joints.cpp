#include "act/chosen_joints.h"

#include <fmt/format.h>

#include "act/lookup.h"
#include "failure/failure.h"
#include "quantity/number_text.h"
#include "record/address.h"

namespace act {
namespace {

// "J06/3" where J06 is meant, or the one position of it.
void refuse_positions(const std::string& code, const finding::Survey& survey) {
  if (code.find('/') == std::string::npos) return;
  const auto address = record::read_address(code);
  if (finding::joint_in(survey, address.joint) == nullptr) return;
  throw failure::InputError(fmt::format(
      "{} names positions; whole joints are taken here, such as {}; \"boltwitness show {}\" shows "
      "one position",
      quantity::quoted(code), address.joint,
      record::write_address(address.joint, address.positions.front())));
}

}  // namespace

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
      refuse_positions(code, survey);
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
