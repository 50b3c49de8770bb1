#include "dialogue/guided_teardown.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

#include "act/hold_point_entry.h"
#include "act/lookup.h"
#include "dialogue/bench_sitting.h"
#include "dialogue/break_loose_question.h"
#include "dialogue/one_key.h"
#include "dialogue/pull_question.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "finding/not_to_be_tested.h"
#include "progress/cover_times.h"
#include "progress/reassembly.h"
#include "screen/teardown_joints.h"
#include "words/text.h"

namespace dialogue {
namespace {

class GuidedTeardown {
 public:
  GuidedTeardown(const TeardownGuide& guide, const terminal::Session& session)
      : session_(session), sitting_(guide, session), how_it_broke_(sitting_), pull_(sitting_) {}

  int run() {
    session_.wait_for_good();
    while (!sitting_.is_stopped()) {
      if (sitting_.is_at_joint()) {
        ask_at_position();
      } else {
        ask_for_joint();
      }
    }
    return failure::kDone;
  }

 private:
  void ask_for_joint() {
    const auto job = session_.open_to_read().job();
    const auto teardown = progress::teardown_of(job);
    const auto under_way = sitting_.walk() ? std::string() : joint_under_way(job, teardown);
    const auto asks = under_way.empty() ? std::string("which joint? Enter or q quits; ? for more")
                                        : fmt::format(
                                              "a test is under way in {}: Enter goes on there; or "
                                              "name another joint; ? for more",
                                              under_way);
    session_.out() << '\n'
                   << words::wrapped(asks, session_.prose_page().width, "", "  ")
                   << screen::joints_to_open(how_far(finding::survey(job), teardown),
                                             session_.prose_page());
    sitting_.answered(screen::BenchPrompt::Joint, "", [&](const BenchAnswer& answer) {
      if (!std::holds_alternative<Key>(answer)) {
        throw failure::InputError("first the joint, such as J06 or J06/1-4");
      }
      if (under_way.empty()) return sitting_.stop();
      sitting_.go_to({under_way, {}});
    });
  }

  // Where the latest pull belongs to a test that was left unfinished.
  static std::string joint_under_way(const record::Job& job, const progress::Teardown& teardown) {
    const record::Entry<record::Pull>* latest = nullptr;
    for (const auto& [place, state] : teardown) {
      if (state.pulls.empty() || record::joint_in(job, place.first) == nullptr) continue;
      const auto* pull = state.pulls.back();
      if (latest == nullptr || record::is_later(pull->stamp, latest->stamp)) latest = pull;
    }
    return latest == nullptr ? std::string() : latest->content.joint;
  }

  // Out with others in one line, and in a bag: nobody meant to test it. The guide itself takes out
  // one at a time, and its test may still be to come.
  static bool is_put_away(const progress::PositionTeardown& at) {
    return at.removal != nullptr && at.pulls.empty() && at.finding == nullptr &&
           !at.removal->content.bag.empty() && at.removal->content.positions.size() > 1;
  }

  // What must not be tested is done once it is out, as the walk takes it.
  static std::vector<screen::JointToOpen> how_far(const finding::Survey& survey,
                                                  const progress::Teardown& teardown) {
    std::vector<screen::JointToOpen> joints;
    for (const auto& state : survey.joints) {
      screen::JointToOpen joint{state.joint};
      for (int position = 1; position <= joint.joint->count; ++position) {
        const auto& at = progress::at(teardown, joint.joint->code, position);
        const bool is_out_untested = at.removal != nullptr && at.pulls.empty() &&
                                     !finding::not_to_be_tested(state, position).empty();
        if (progress::is_finished(at) || is_out_untested || is_put_away(at)) ++joint.done;
      }
      joints.push_back(joint);
    }
    return joints;
  }

  void ask_at_position() {
    const auto& walk = *sitting_.walk();
    const auto logbook = session_.open_to_read();
    (void)act::joint_or_refuse(logbook, walk.joint());
    const act::Standing now(logbook, walk.joint());
    leave_untested(now);
    const auto position = walk.next(now.teardown);
    if (!position) return tell_done(now);
    if (const auto behind = act::behind_hold_point(now.job, walk.joint(), session_.done_at());
        !behind.empty()) {
      throw failure::Refusal(behind);
    }
    if (!is_to_be_taken_apart(now)) return sitting_.leave_joint();
    if (sitting_.has_just_come()) {
      session_.out() << '\n' << screen::joint_opening(*now.joint, session_.prose_page());
    }
    if (progress::at(now.teardown, walk.joint(), *position).removal == nullptr) {
      return how_it_broke_.ask(*position);
    }
    pull_.ask(now, *position);
  }

  // Asked once for a joint that is back together: a key would record it as out again.
  bool is_to_be_taken_apart(const act::Standing& now) {
    const auto& joint = *now.joint->joint;
    if (taken_apart_ == joint.code) return true;
    const auto* tightened = last_tightened(now);
    if (tightened != nullptr) {
      session_.out() << '\n'
                     << words::wrapped(
                            fmt::format("{} is back together, tightened {} (line {}): this takes "
                                        "it apart again. y it does, anything else leaves it",
                                        joint.code, record::write_local(tightened->done_at),
                                        tightened->line),
                            session_.prose_page().width, "", "  ");
      const auto typed = session_.answer("> ", every_key());
      if (!typed) sitting_.stop();
      if (!typed || key_of(*typed) != 'y') return false;
    }
    taken_apart_ = joint.code;
    return true;
  }

  // The last tightening of a position that did not come out after it; nothing where none is in.
  static const record::Stamp* last_tightened(const act::Standing& now) {
    const record::Stamp* last = nullptr;
    for (const auto& entry : now.job.tightenings) {
      if (!record::is_work(entry.content)) continue;
      const bool is_in = std::ranges::any_of(entry.content.positions, [&](int position) {
        if (position > now.joint->joint->count) return false;
        const auto* removal = now.joint->at(position).removal;
        return removal == nullptr || record::is_later(entry.stamp, removal->stamp);
      });
      if (is_in && (last == nullptr || record::is_later(entry.stamp, *last))) last = &entry.stamp;
    }
    return last;
  }

  // What must not be tested is said before the first of it is touched.
  void leave_untested(const act::Standing& now) {
    auto& walk = *sitting_.walk();
    const auto& joint = *now.joint;
    std::set<int> untested;
    for (const int position : walk.positions()) {
      if (!finding::not_to_be_tested(joint, position).empty() ||
          is_put_away(progress::at(now.teardown, walk.joint(), position))) {
        untested.insert(position);
      }
    }
    walk.leave_untested(std::move(untested));
    if (std::exchange(warned_of_, walk.joint()) == walk.joint()) return;
    for (const auto& warning : finding::warnings_before_test(joint, walk.positions())) {
      session_.remark(warning + "; it is led out without a test");
    }
    tell_covers(walk.joint());
  }

  // A whole machine comes in with its covers on.
  void tell_covers(const std::string& joint) const {
    const auto logbook = session_.open_to_read();
    for (const auto& code : logbook.covers_of(joint)) {
      const progress::SurveyedJob now(logbook.job_of(code));
      for (const auto* cover : progress::covers_to_open(now.job, now.survey, joint)) {
        session_.remark(progress::comes_off_first(*cover, joint));
      }
    }
  }

  void tell_done(const act::Standing& now) {
    const auto& walk = *sitting_.walk();
    const auto open = walk.open(now.teardown);
    const auto all = walk.positions().size();
    session_.out() << fmt::format("\n{}: {} of {} done{}\n", walk.joint(), all - open.size(), all,
                                  open.empty() ? "" : ", skipped " + record::write_positions(open));
    sitting_.leave_joint();
  }

  const terminal::Session& session_;
  BenchSitting sitting_;
  BreakLooseQuestion how_it_broke_;
  PullQuestion pull_;
  std::string taken_apart_;  // the joint of which it was asked last
  std::string warned_of_;    // the joint of which it was said last
};

}  // namespace

int guide_teardown(const TeardownGuide& guide, const terminal::Session& session) {
  return GuidedTeardown(guide, session).run();
}

}  // namespace dialogue
