#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "act/adapter_words.h"
#include "act/correction.h"
#include "act/done.h"
#include "progress/reassembly.h"
#include "quantity/angle.h"
#include "record/address.h"

namespace act {

// The highest number that a pass may be given; a guard against a slipped key.
inline constexpr int kMostPasses = 100;

// What somebody says has been done to some positions of a joint; what is not said is as planned.
struct TighteningWork {
  std::string joint;
  std::vector<int> positions;  // where `in_order`, in the order done
  bool in_order = false;       // record/tightening.h
  std::optional<int> pass;     // else the lowest that is open among the positions
  std::string wrench;          // else the plan's
  // On that wrench's scale; else the plan's.
  std::optional<record::TypedSetting> setting;
  std::optional<quantity::Angle> turned;
  std::string skipped_why;  // empty where it was done
  std::string seen;         // of what was slackened to be looked at; may be empty
  bool second_check = false;
  bool is_time_confirmed = false;  // somebody was asked whether the final value may be set now
  std::optional<plan::ThroughAdapter> adapter;
  Correction correction;
};

// The same as typed, the positions apart.
struct TighteningWords {
  std::string pass;
  std::string wrench;
  std::string set;
  std::string turned;
  std::string skip;
  std::string seen;
  bool check = false;
  AdapterWords adapter;
  Correction correction;
};

// What the words say. OptionError for what cannot be taken.
[[nodiscard]] TighteningWork work_from(const TighteningWords& words, record::Address address);

// Finds a wrench by its name; refuses where there is none.
using WrenchNamed = std::function<record::Wrench(const std::string&)>;

// The line that the work makes in a pass that asks for this; `planned` is what the plan chose for
// it and stands in for a wrench or setting that is not said, nullptr where no plan is asked.
// OptionError where what is said does not fit the pass or the wrench.
[[nodiscard]] record::Tightening tightening_from(const TighteningWork& work, int pass,
                                                 const record::PassTarget& target,
                                                 const plan::WrenchSetting* planned,
                                                 const WrenchNamed& wrench_named);

// "J06: final value when the box is loaded. Is it so now?": what has to be so before the step's
// final value is set. The step is of a stage that waits.
[[nodiscard]] std::string final_value_question(const progress::Step& step);

// Records it in a line of its own; remarks on what is not as planned about it. Refusal where a hold
// point stands before the joint, where there is no such joint, where a second check comes before
// the final value or from one who did it. UsageError and InputError where what is said does not fit
// the plan's step or the wrench.
Done record_work(logbook::Logbook& logbook, const logbook::Writer& writer,
                 const TighteningWork& work);

// InputError where the setting lies beyond an end of the wrench's scale.
void check_settable(const record::Wrench& wrench, double setting);

// Refusal where one of the positions had not reached its final value at that time or does not stand
// at it (progress/final_value.h), or where this person had a hand in tightening it.
void check_second_person(const record::Job& job, const progress::Progress& progress,
                         const std::string& joint, const std::vector<int>& positions,
                         const std::string& who, record::Moment done_at);

// What the plan asks for in this pass. InputError where one of the positions has no such pass, and
// where it does not ask the same of all.
[[nodiscard]] record::PassTarget target_in_plan(const progress::Progress& progress,
                                                const std::string& joint,
                                                const std::vector<int>& positions, int pass);

}  // namespace act
