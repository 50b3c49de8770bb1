#include "act/outlook.h"

#include "words/joint_in_short.h"

namespace act {

Outlook::Outlook(const logbook::Logbook& logbook, record::Moment moment) : moment_(moment) {
  const auto day = record::local_day(moment);
  try {
    reassembly_.emplace(logbook.job(), day);
  } catch (const plan::PlanCycle& cycle) {
    circle_.emplace(cycle);
    entered_.emplace(logbook.job());
    reassembly_.emplace(progress::without_precedences(entered_->job), day);
  }
  open_ = progress::open_list(*reassembly_, moment);
}

const progress::SurveyedJob& Outlook::entered() const {
  return entered_ ? *entered_ : static_cast<const progress::SurveyedJob&>(*reassembly_);
}

const progress::Progress* Outlook::progress() const {
  return circle_ ? nullptr : &reassembly_->progress;
}

audit::Case Outlook::subject() const {
  return {entered().job,
          entered().survey,
          moment_,
          progress(),
          circle_ ? std::string_view(circle_->circle()) : std::string_view(),
          circle_ ? std::string_view(circle_->mend()) : std::string_view()};
}

std::string why_no_plan(const Outlook& outlook) {
  const auto* circle = outlook.circle();
  return circle == nullptr ? std::string() : circle->circle() + ": boltwitness " + circle->mend();
}

std::string joint_in_short(const Outlook& outlook, const finding::JointState& joint,
                           const audit::Audit& audit) {
  if (outlook.circle() != nullptr) return {};
  return words::in_words(words::JointsInShort(outlook.reassembly(), outlook.open(), audit,
                                              record::local_day(outlook.moment()))
                             .of(joint));
}

}  // namespace act
