#include "act/hold_point_entry.h"

#include <fmt/format.h>

#include <algorithm>

#include "act/amendment.h"
#include "act/kept_words.h"
#include "act/lookup.h"
#include "failure/failure.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "record/typed_text.h"
#include "words/line_text.h"

namespace act {
namespace {

using progress::HoldPointState;
using record::HoldPointMove;
using PointStands = HoldPointState::Stands;

std::string code_from(const HoldPointWords& words) {
  return record::read_code(words.code, "the code of a hold point", "HV or shaft-blocked");
}

record::HoldPoint point_from(const HoldPointWords& words, const logbook::Logbook& logbook) {
  record::HoldPoint point;
  point.code = code_from(words);
  point.what = record::read_text(words.what, "--what");
  if (!words.wait.empty()) point.wait = record::read_span_of_time(words.wait);
  for (const auto& typed : words.before) {
    auto code = joint_or_refuse(logbook, record::read_joint_code(typed)).content.code;
    if (std::ranges::find(point.joints, code) == point.joints.end()) {
      point.joints.push_back(std::move(code));
    }
  }
  return point;
}

HoldPointMove move_from(const HoldPointWords& words) {
  if (words.begin) return HoldPointMove::Begun;
  return words.pass ? HoldPointMove::Passed : HoldPointMove::Closed;
}

// What was done before it was put up opens nothing of it.
void refuse_before_put_up(const record::Job& job, const std::string& code, record::Moment done_at) {
  const progress::HoldPointTimes times(job);
  const auto* entry = times.in_force(code);
  if (entry == nullptr || !progress::is_before(done_at, entry->stamp)) return;
  throw failure::Refusal(fmt::format(
      "hold point {} was put up on {} (line {}), after this: what was done before opens nothing. "
      "If "
      "it stood then already, enter it again with its own time: hold-point {} --what {} --at ... "
      "--replace {} --why ...",
      code, record::write_local(entry->stamp.done_at), entry->stamp.line, entry->content.code,
      quantity::quoted(entry->content.what), entry->stamp.line));
}

// A begin before a close that is on record counts for nothing once that came.
void refuse_begin_before_close(const record::Job& job, const std::string& code,
                               record::Moment done_at) {
  const record::Stamp* close = nullptr;
  for (const auto& [stamp, step] : job.hold_point_steps) {
    if (step.move != HoldPointMove::Closed || !record::same_code(step.code, code)) continue;
    if (stamp.done_at <= done_at) continue;
    if (close == nullptr || record::is_later(stamp, *close)) close = &stamp;
  }
  if (close == nullptr) return;
  throw failure::Refusal(fmt::format(
      "hold point {0} was closed on {1} (line {2}), after this: a begin before that starts no wait "
      "now. Give the time when it was begun with --at; where line {2} is wrong, strike {2} --why "
      "...",
      code, record::write_local(close->done_at), close->line));
}

void check_move(const HoldPointState& state, HoldPointMove move) {
  const auto& point = *state.point;
  switch (move) {
    case HoldPointMove::Begun:
      if (point.wait) return;
      throw failure::Refusal(
          fmt::format("{} has no wait to begin; once it is proved: hold-point {} --pass",
                      point.code, point.code));
    case HoldPointMove::Passed:
      if (state.stands == PointStands::NotBegun && point.wait) {
        throw failure::Refusal(fmt::format("{}; hold-point {} --begin starts its wait of {}",
                                           progress::in_words(state), point.code,
                                           record::write_exact(*point.wait)));
      }
      if (state.stands == PointStands::Waiting) {
        throw failure::Refusal(fmt::format("{}, to {}; nothing was written",
                                           progress::in_words(state),
                                           record::write_local(*state.open_from)));
      }
      if (state.stands == PointStands::Passed) {
        throw failure::Refusal(progress::in_words(state) + " already; --close shuts it again");
      }
      return;
    case HoldPointMove::Closed:
      if (state.stands != PointStands::NotBegun) return;
      throw failure::Refusal(progress::in_words(state) + ": it is shut already");
  }
}

}  // namespace

const HoldPointState& hold_point_or_refuse(const std::vector<HoldPointState>& states,
                                           const std::string& code) {
  if (const auto* state = progress::state_of(states, code)) return *state;
  std::vector<std::string> known;
  known.reserve(states.size());
  for (const auto& each : states) known.push_back(each.point->code);
  throw failure::Refusal(fmt::format("there is no hold point {} in this logbook{}",
                                     quantity::quoted(code), suggestion(code, known)));
}

std::string behind_hold_point(const record::Job& job, const std::string& joint,
                              record::Moment moment) {
  std::string text;
  for (const auto& state : progress::in_the_way(job, joint, moment)) {
    text += (text.empty() ? "" : "; ") + progress::in_words(state);
  }
  return text.empty() ? text : fmt::format("{} is behind a hold point: {}", joint, text);
}

std::vector<std::string> check_hold_points(const record::Job& job, const std::string& joint,
                                           record::Moment done_at, record::Moment now) {
  const auto behind = behind_hold_point(job, joint, done_at);
  if (behind.empty()) return {};
  if (done_at >= now) throw failure::Refusal(behind);
  return {fmt::format("at {} {}; recorded as it happened, and the audit will hold it up",
                      record::write_local(done_at), behind)};
}

namespace {

bool is_step(const HoldPointWords& words) { return words.begin || words.pass || words.close; }

// The words, with what they leave out as the line before had it.
HoldPointWords completed(HoldPointWords words, const Amendment& amendment) {
  KeptWords kept(words.correction);
  if (const auto* before = amendment.before<record::HoldPoint>()) {
    KeptWords::fill(words.what, before->what);
    kept.take("wait", words.wait, before->wait ? record::write_exact(*before->wait) : "");
    kept.take("before", words.before, before->joints);
  } else if (const auto* step = amendment.before<record::HoldPointStep>()) {
    if (!is_step(words)) {
      words.begin = step->move == HoldPointMove::Begun;
      words.pass = step->move == HoldPointMove::Passed;
      words.close = step->move == HoldPointMove::Closed;
    }
    kept.take("note", words.note, step->note);
  } else {
    return words;
  }
  kept.check();
  return words;
}

void check_hold_point_words(const HoldPointWords& words) {
  if (words.code.empty()) throw failure::UsageError("name the hold point: hold-point HV --pass");
  if (is_step(words)) {
    if (words.wait.empty() && words.before.empty()) return;
    throw failure::UsageError("--wait and --before belong to --what TEXT, which enters the point");
  }
  if (!words.note.empty()) {
    throw failure::UsageError("--note belongs to --begin, --pass or --close");
  }
  if (words.what.empty()) {
    throw failure::UsageError(
        "say what has to be proved: --what TEXT; or --begin, --pass, --close");
  }
}

Done enter_hold_point(logbook::Logbook& logbook, Amendment& amendment,
                      const HoldPointWords& words) {
  const auto point = point_from(words, logbook);
  const auto job = logbook.job_of_none();
  const auto states = progress::hold_points(job, amendment.writer().done_at);
  const auto* known = progress::state_of(states, point.code);
  // One that counts though it was struck (record/kept_by_use.h) is entered again as if it were new.
  if (known != nullptr && job.apart.kept(known->put_up->id) == nullptr) {
    throw failure::Refusal(fmt::format(
        "hold point {} is in the logbook already; to correct it give the number of its line with "
        "--replace (\"boltwitness history\" shows it)",
        point.code));
  }
  auto stamp = amendment.append(point);
  amendment.commit();
  return {{{std::move(stamp), words::line_text(point)}}, {}};
}

Done step_hold_point(logbook::Logbook& logbook, Amendment& amendment, const HoldPointWords& words) {
  const auto& writer = amendment.writer();
  const auto code = code_from(words);
  const auto job = logbook.job_of_none();
  const auto states = progress::hold_points(job, writer.done_at);
  const auto& before = hold_point_or_refuse(states, code);
  refuse_before_put_up(job, code, writer.done_at);
  const record::HoldPointStep taken{before.point->code, move_from(words),
                                    record::read_optional_text(words.note, "--note", 1000)};
  if (taken.move == HoldPointMove::Begun) refuse_begin_before_close(job, code, writer.done_at);
  check_move(before, taken.move);
  auto stamp = amendment.append(taken);
  const auto job_after = logbook.job_of_none();
  amendment.commit();
  Done done{{{std::move(stamp), words::line_text(taken)}}, {}};
  const auto states_now = progress::hold_points(job_after, writer.now);
  const auto& now = *progress::state_of(states_now, taken.code);
  if (taken.move == HoldPointMove::Passed && now.stands != PointStands::Passed &&
      now.last_step != nullptr) {
    done.remarks.push_back(fmt::format("it opened {} then; it was shut again since (line {})",
                                       taken.code, now.last_step->stamp.line));
  }
  if (taken.move == HoldPointMove::Begun) {
    const auto states_after = progress::hold_points(job_after, writer.done_at);
    done.lines.front().says +=
        fmt::format("; the wait of {} ends {}", record::write_exact(*before.point->wait),
                    record::write_local(*progress::state_of(states_after, taken.code)->open_from));
    if (before.stands == PointStands::Passed) {
      done.remarks.push_back(taken.code + " was passed; it is shut until it is passed again");
    }
  }
  return done;
}

}  // namespace

Done record_hold_point(logbook::Logbook& logbook, const logbook::Writer& stated,
                       const HoldPointWords& said) {
  Amendment amendment(logbook, stated, said.correction);
  amendment.strike_replaced({"hold point", "hold point step"});
  const auto words = completed(said, amendment);
  check_hold_point_words(words);
  amendment.check_same_kind(is_step(words) ? "hold point step" : "hold point");
  auto done = is_step(words) ? step_hold_point(logbook, amendment, words)
                             : enter_hold_point(logbook, amendment, words);
  amendment.tell_replaced(done);
  return done;
}

}  // namespace act
