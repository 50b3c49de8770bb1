#include "dialogue/guided_teardown.h"

#include <fmt/format.h>

#include <utility>

#include "act/hold_point_entry.h"
#include "act/lookup.h"
#include "act/under_cover.h"
#include "dialogue/bench_sitting.h"
#include "dialogue/break_loose_question.h"
#include "dialogue/one_key.h"
#include "dialogue/pull_question.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "finding/not_to_be_tested.h"
#include "progress/teardown_turn.h"
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
    const auto under_way =
        sitting_.walk() ? std::string() : progress::joint_under_way(job, teardown);
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

  static std::vector<screen::JointToOpen> how_far(const finding::Survey& survey,
                                                  const progress::Teardown& teardown) {
    std::vector<screen::JointToOpen> joints;
    for (const auto& state : survey.joints) {
      joints.push_back({state.joint, progress::positions_taken_apart(state, teardown)});
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
    const auto* tightened = progress::last_tightened(now.job, *now.joint);
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

  // What must not be tested is said before the first of it is touched.
  void leave_untested(const act::Standing& now) {
    auto& walk = *sitting_.walk();
    const auto& joint = *now.joint;
    walk.leave_untested(progress::led_out_untested(joint, now.teardown, walk.positions()));
    if (std::exchange(warned_of_, walk.joint()) == walk.joint()) return;
    for (const auto& warning : finding::warnings_before_test(joint, walk.positions())) {
      session_.remark(warning + "; it is led out without a test");
    }
    tell_covers(walk.joint());
  }

  // A whole machine comes in with its covers on.
  void tell_covers(const std::string& joint) const {
    const auto logbook = session_.open_to_read();
    for (const auto& first : act::covers_off_first(logbook, joint)) session_.remark(first);
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
