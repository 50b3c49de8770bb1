#include "dialogue/guided_tightening.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cstdint>
#include <set>
#include <utility>
#include <vector>

#include "act/correction.h"
#include "act/lookup.h"
#include "act/tightening_entry.h"
#include "act/tightening_turn.h"
#include "dialogue/before_cover.h"
#include "dialogue/line_question.h"
#include "dialogue/one_key.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "quantity/angle_text.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "record/typed_text.h"
#include "screen/progress_answer.h"
#include "screen/step_screen.h"
#include "words/text.h"

namespace dialogue {
namespace {

using progress::Step;

class GuidedTightening {
 public:
  GuidedTightening(Guide guide, const terminal::Session& session)
      : guide_(std::move(guide)), session_(session) {}

  int run() {
    session_.wait_for_good();
    if (guide_.joint) {
      guide_.joint = act::joint_or_refuse(session_.open_to_read(), *guide_.joint).content.code;
    }
    while (true) {
      seen_line_ = session_.open_to_read().last_line();
      const progress::Reassembly now(session_.open_to_read().job(), session_.day(),
                                     guide_.adapter.value_or(plan::ThroughAdapter{}));
      const auto* step = next(now.progress);
      if (step == nullptr) {
        tell_end(now);
        return failure::kDone;
      }
      act::refuse_out_of_turn(now, *step, session_.done_at());
      if (const auto unmarked = act::to_be_marked_before(now, *step, session_.done_at())) {
        const auto done = finish_before_cover(session_, now, *unmarked);
        if (!done) {
          session_.out() << "stopped; the next call goes on here\n";
          return failure::kDone;
        }
        (void)told(*done);
        continue;
      }
      if (!is_time_for_final_value(*step)) {
        session_.out() << "left open; it stays on the list of sequence --status\n";
        return failure::kDone;
      }
      tell_before(now, *step);
      session_.out() << screen::step_screen(
          *step, now, guide_.joint ? screen::Guided::JointAlone : screen::Guided::WholeJob,
          session_.large_letters(), page());
      if (!answer(*step)) {
        session_.out() << "stopped; the next call goes on at this step\n";
        return failure::kDone;
      }
    }
  }

 private:
  static const std::string& code_of(const Step& step) { return step.joint->state->joint->code; }

  // Steps left out are not asked for again: they stay on the open list.
  [[nodiscard]] const Step* next(const progress::Progress& progress) const {
    const auto* step = progress.next(guide_.joint);
    return step != nullptr && step->stands == Step::Stands::Open ? step : nullptr;
  }

  void tell_end(const progress::Reassembly& now) const {
    if (guide_.joint) {
      session_.out() << fmt::format("{}: no step is open any more\n", *guide_.joint);
    }
    session_.out() << screen::standing_text(now.progress, page());
    tell_stripes(now);
  }

  // Where the final value stands and no final stripe says so yet.
  void tell_stripes(const progress::Reassembly& now) const {
    for (const auto& says : act::stripes_due(now, guide_.joint, session_.done_at())) {
      session_.out() << words::wrapped(says, page().width, "", "  ");
    }
  }

  // What has to be so before the joint of the step and is not, once when the guide comes to it.
  void tell_before(const progress::Reassembly& now, const Step& step) {
    const auto& joint = *step.joint->state;
    if (std::exchange(told_before_, joint.joint->code) == joint.joint->code) return;
    const auto unmet = act::unmet_before(now, joint, session_.done_at());
    if (unmet.empty()) return;
    session_.out() << '\n' << fmt::format("before {}:\n", joint.joint->code);
    for (const auto& says : unmet) {
      session_.out() << words::wrapped(says, page().width, "  [ ] ", "      ");
    }
  }

  // Asked once for each condition on which a final value waits, until it is y, or what stops.
  bool is_time_for_final_value(const Step& step) {
    const auto& when = step.joint->state->joint->final_when;
    if (step.joint->stage != plan::Stage::Final || conditions_met_.contains(when)) return true;
    while (true) {
      session_.out() << words::wrapped(
          act::final_value_question(step) + " y it is, q it is not: quit", page().width, "", "  ");
      const auto typed = session_.answer("> ", every_key());
      if (!typed || key_of(*typed) == 'q') return false;
      if (key_of(*typed) != 'y') {
        remark_on_key(session_, *typed, "y q");
        continue;
      }
      conditions_met_.insert(when);
      return true;
    }
  }

  // False where the person stops.
  bool answer(const Step& step) {
    while (!is_stopped_) {
      const auto typed = session_.answer("> ", every_key());
      if (!typed) return false;
      try {
        switch (key_of(*typed)) {
          case 'q':
            return false;
          case 'u':
            return take_back();
          case 'd':
            if (has_moved_on(step) || done_as_planned(step)) return true;
            break;
          case 'k':
            if (has_moved_on(step) || left_out(step)) return true;
            break;
          case 'v':
            if (has_moved_on(step) || with_other_values(step)) return true;
            break;
          case 'm':
            session_.out() << screen::step_map(step, page());
            continue;
          case '?':
            session_.out() << screen::step_keys(page());
            continue;
          default:
            remark_on_key(session_, *typed, "d v k u m q ?");
        }
      } catch (const failure::Failure& error) {
        if (!is_for_the_person(error)) throw;
        session_.remark(fmt::format("{}; nothing was recorded", error.what()));
      }
      if (!is_stopped_) session_.out() << screen::step_keys_in_short(page());
    }
    return false;
  }

  template <class Read>
  auto ask(const std::string& question, Read&& read) {
    auto answer = ask_line(session_, question, std::forward<Read>(read));
    is_stopped_ = answer.stops;
    return std::move(answer.value);
  }

  // What another terminal wrote while this step was shown may have done it, or put another before
  // it: then the answer is to a question that is asked no more.
  bool has_moved_on(const Step& step) {
    const auto last = session_.open_to_read().last_line();
    if (last == std::exchange(seen_line_, last)) return false;
    const progress::Reassembly now(session_.open_to_read().job(), session_.day(),
                                   guide_.adapter.value_or(plan::ThroughAdapter{}));
    const auto* due = next(now.progress);
    const auto is_it = [&](const Step& each) {
      return record::same_code(code_of(each), code_of(step)) && each.position == step.position &&
             each.pass_number() == step.pass_number();
    };
    if (due != nullptr && is_it(*due)) return false;
    session_.remark(
        fmt::format("line {} was written elsewhere while this was asked; nothing was "
                    "recorded",
                    last));
    const auto& steps = now.progress.steps();
    const auto there = std::ranges::find_if(steps, is_it);
    if (there != steps.end() && there->stands == Step::Stands::Done) {
      const auto address = record::write_address(code_of(step), step.position);
      session_.remark(fmt::format(
          "{} pass {} was done by {} (line {}). Where you did it too, so that both lines stand: "
          "tighten {} --pass {}",
          address, step.pass_number(), there->entry->stamp.by, there->entry->stamp.line, address,
          step.pass_number()));
    }
    return true;
  }

  // The last answer of this call; the step that it answered is asked for again.
  bool take_back() {
    if (lines_.empty()) {
      throw failure::Refusal(
          "nothing has been answered here yet; an earlier line is struck by strike LINE --why");
    }
    auto logbook = session_.open_to_write();
    session_.tell(
        act::strike(logbook, session_.writer(), lines_.back(), "taken back while tightening"));
    lines_.pop_back();
    return true;
  }

  bool record(const act::TighteningWork& work) {
    auto logbook = session_.open_to_write();
    return told(act::record_work(logbook, session_.writer(), work));
  }

  // What was remarked on a joint once is not said again after each key.
  bool told(act::Done done) {
    lines_.push_back(done.lines.front().stamp.line);
    std::erase_if(done.remarks,
                  [&](const std::string& remark) { return !remarked_.insert(remark).second; });
    session_.tell(done);
    return true;
  }

  [[nodiscard]] act::TighteningWork work_on(const Step& step) const {
    act::TighteningWork work;
    work.joint = code_of(step);
    work.positions = {step.position};
    work.pass = step.pass_number();
    work.adapter = guide_.adapter;
    work.is_time_confirmed = true;
    return work;
  }

  // Of what was slackened to be looked at it is asked what was seen.
  bool done_as_planned(const Step& step) {
    auto work = work_on(step);
    if (step.planned().pass.asks_for_look) {
      const auto seen = ask("seen of thread, face and seat", [](const std::string& text) {
        return record::read_text(text, "what was seen", 1000);
      });
      if (!seen) return false;
      work.seen = *seen;
    }
    return record(work);
  }

  bool left_out(const Step& step) {
    const auto why =
        ask("why", [](const std::string& text) { return record::read_text(text, "why", 200); });
    if (!why) return false;
    auto work = work_on(step);
    work.skipped_why = *why;
    return record(work);
  }

  // The turn of an angle pass, else the wrench and its setting.
  bool with_other_values(const Step& step) {
    auto work = work_on(step);
    if (step.planned().pass.kind == record::PassKind::Angle) {
      const auto turned = ask("turned by, such as 62°",
                              [](const std::string& text) { return quantity::read_turn(text); });
      if (!turned) return false;
      work.turned = *turned;
      return record(work);
    }
    const auto logbook = session_.open_to_read();
    const auto wrench = ask_for_wrench(logbook, step);
    if (!wrench) return false;
    const auto setting =
        ask(fmt::format("{} set to, in {}", wrench->name, quantity::name_of(wrench->scale.unit)),
            [&](const std::string& text) {
              const double typed = record::setting_on(*wrench, record::read_setting(text));
              act::check_settable(*wrench, typed);
              return typed;
            });
    if (!setting) return false;
    work.wrench = wrench->name;
    work.setting = record::TypedSetting{*setting};
    return record(work);
  }

  // Enter takes the wrench in brackets: the plan's, or the only one.
  std::optional<record::Wrench> ask_for_wrench(const logbook::Logbook& logbook, const Step& step) {
    auto names = logbook.wrench_names();
    std::string at_hand = names.size() == 1 ? names.front() : "";
    if (const auto& planned = step.planned().setting) at_hand = planned->wrench->name;
    std::erase(names, at_hand);
    const auto question = fmt::format("wrench{}{}{}", at_hand.empty() ? "" : " (" + at_hand + ")",
                                      names.empty()     ? ""
                                      : at_hand.empty() ? ": "
                                                        : ", or ",
                                      fmt::join(names, ", "));
    auto answer = ask_line(
        session_, question,
        [&](const std::string& name) { return act::wrench_or_refuse(logbook, name).content; },
        at_hand);
    is_stopped_ = answer.stops;
    return std::move(answer.value);
  }

  [[nodiscard]] words::Page page() const { return session_.prose_page(); }

  Guide guide_;
  const terminal::Session& session_;
  bool is_stopped_ = false;
  std::int64_t seen_line_ = 0;  // the last of the logbook when the step was shown
  std::string told_before_;     // the joint of which it was told last
  std::set<std::string> remarked_;
  std::set<std::string> conditions_met_;
  std::vector<std::int64_t> lines_;  // written here and not taken back, the last one last
};

}  // namespace

int guide_tightening(const Guide& guide, const terminal::Session& session) {
  return GuidedTightening(guide, session).run();
}

}  // namespace dialogue
