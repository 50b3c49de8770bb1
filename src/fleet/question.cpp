#include "fleet/question.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>

#include "failure/failure.h"
#include "quantity/number_text.h"

namespace fleet {
namespace {

using How = AnswerColumn::How;

const AnswerColumn kMachine = {"machine", How::Text, {"machine"}};
const AnswerColumn kPlace = {"position", How::Place, {"joint", "position"}};
const AnswerColumn kFound = {"found N·m", How::Torque, {"found_nm", "found_uncertainty_nm"}};
const AnswerColumn kSpecified = {
    "specified N·m", How::Specified, {"specified_nm", "specified_low_nm", "specified_high_nm"}};
const AnswerColumn kMedian = {
    "median ratio", How::Between, {"median_ratio", "median_ratio_low", "median_ratio_high"}};

// How many were found how, behind what they have in common.
std::vector<AnswerColumn> tally(AnswerColumn subject) {
  return {std::move(subject),
          {"found", How::Number, {"found"}},
          {"within", How::Number, {"within"}},
          {"low", How::Number, {"low"}},
          {"high", How::Number, {"high"}},
          {"undecided", How::Number, {"undecided"}},
          {"loose", How::Number, {"came_out_loose"}},
          kMedian};
}

}  // namespace

const std::vector<Question>& questions() {
  static const std::vector<Question> all = {
      {"loosened",
       "loosened",
       "machine, joint, position, file",
       "loosened since the teardown before",
       "fastener",
       "fasteners",
       true,
       {kMachine,
        kPlace,
        {"how", How::Text, {"how"}},
        kFound,
        {"before N·m", How::Torque, {"before_nm", "before_uncertainty_nm"}},
        kSpecified,
        {"out", How::Moment, {"out_at"}}}},
      {"by-joint", "by_joint", "low DESC, joint", "how fasteners were found, by joint code",
       "joint", "joints", false, tally({"joint", How::Text, {"joint"}})},
      {"by-size", "by_size", "low DESC, size", "how fasteners were found, by size of thread",
       "size", "sizes", false, tally({"size", How::Text, {"size"}})},
      {"by-condition", "by_condition", "low DESC, condition",
       "how fasteners were found, by condition of the threads", "condition", "conditions", false,
       tally({"condition", How::Text, {"condition"}})},
      {"by-wrench", "by_wrench", "low DESC, wrench, serial, median_ratio, fasteners",
       "how fasteners were found, by wrench", "wrench", "wrenches", false,
       tally({"wrench", How::Text, {"wrench", "serial"}})},
      {"bad-wrench",
       "bad_wrench",
       "serial, wrench, calibrated_on, machine, joint, positions, done_at, line, file",
       "what a wrench that was found off had touched, on every machine",
       "line",
       "lines",
       true,
       {{"wrench", How::Text, {"wrench", "serial"}},
        {"found off", How::Text, {"calibrated_on"}},
        {"by %", How::Number, {"found_off_percent"}},
        kMachine,
        {"positions", How::Places, {"joint", "positions"}},
        {"was", How::Text, {"what"}},
        kFound,
        {"done", How::Moment, {"done_at"}}}},
      {"drift",
       "drift",
       "machine, joint",
       "how far each machine has drifted from its sisters, joint by joint",
       "joint",
       "joints",
       true,
       {kMachine,
        {"joint", How::Text, {"joint"}},
        {"fasteners", How::Number, {"fasteners"}},
        {"sisters", How::Number, {"sisters"}},
        {"lower", How::Number, {"lower"}},
        {"higher", How::Number, {"higher"}},
        kMedian}},
      {"changed",
       "changed",
       "machine, joint, position, file",
       "found otherwise than on the sisters by more than the uncertainties explain",
       "fastener",
       "fasteners",
       true,
       {kMachine,
        kPlace,
        kFound,
        {"sisters N·m", How::Torque, {"sisters_nm", "sisters_uncertainty_nm"}},
        {"sisters", How::Number, {"sisters"}},
        {"E_n", How::Number, {"e_n"}},
        kSpecified}},
      {"overdue",
       "overdue",
       "machine, joint, positions, since_at, asked, file",
       "looks at final stripes that are overdue",
       "look",
       "looks",
       true,
       {kMachine,
        {"positions", How::Places, {"joint", "positions"}},
        {"turned", How::Angle, {"turned_degrees"}},
        {"asked after", How::Text, {"asked"}},
        {"since", How::Moment, {"since_at"}},
        {"due", How::Moment, {"due_at"}},
        {"due at", How::Counter, {"due_counter", "counter_unit"}},
        {"ran to", How::Counter, {"counter", "counter_unit"}}}},
  };
  return all;
}

const Question& question_named(std::string_view word) {
  const auto found = std::ranges::find(questions(), word, &Question::word);
  if (found != questions().end()) return *found;
  std::string known;
  for (const auto& question : questions()) {
    known += fmt::format("{}{}", known.empty() ? "" : ", ", question.word);
  }
  throw failure::UsageError(
      fmt::format("fleet ask {}: expected one of {}", quantity::quoted(word), known));
}

}  // namespace fleet
