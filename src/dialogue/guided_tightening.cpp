#include "dialogue/guided_tightening.h"

#include <fmt/format.h>

#include <cstdint>
#include <set>
#include <vector>

#include "act/correction.h"
#include "act/hold_point_entry.h"
#include "act/lookup.h"
#include "act/tightening_entry.h"
#include "dialogue/mistake.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "progress/unfinished_before.h"
#include "quantity/angle_text.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "record/typed_text.h"
#include "screen/progress_answer.h"
#include "words/text.h"

namespace dialogue {
namespace {

using progress::Step;

// Asks for a line; nothing where nothing was written or the input ended.
std::optional<std::string> ask(const terminal::Session& session, const std::string& question) {
  session.out() << question << ": " << std::flush;
  const auto answer = session.line();
  if (!answer || quantity::trimmed(*answer).empty()) return std::nullopt;
  return std::string(quantity::trimmed(*answer));
}

class GuidedTightening {
 public:
  GuidedTightening(Guide guide, const terminal::Session& session)
      : guide_(std::move(guide)), session_(session) {}

  int run() {
    if (guide_.joint) {
      guide_.joint = act::joint_or_refuse(session_.open_to_read(), *guide_.joint).content.code;
    }
    while (true) {
      const progress::Reassembly now(session_.open_to_read().job(), session_.day(),
                                     guide_.adapter.value_or(plan::ThroughAdapter{}));
      const auto* step = next(now.progress);
      if (step == nullptr) {
        tell_end(now);
        return failure::kDone;
      }
      if (const auto behind = act::behind_hold_point(now.job, code_of(*step), session_.done_at());
          !behind.empty()) {
        throw failure::Refusal(behind);
      }
      refuse_to_cover(now.progress, *step);
      if (!is_time_for_final_value(*step)) {
        session_.out() << "left open; it stays on the list of sequence --status\n";
        return failure::kDone;
      }
      session_.out() << screen::step_screen(*step, now.progress, session_.page()) << std::flush;
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
    session_.out() << screen::standing_text(now.progress, session_.page());
    tell_stripes(now);
  }

  // Where the final value stands and no final stripe says so yet.
  void tell_stripes(const progress::Reassembly& now) const {
    for (const auto& state : now.survey.joints) {
      const auto& code = state.joint->code;
      if (guide_.joint && !record::same_code(*guide_.joint, code)) continue;
      std::vector<int> positions;
      for (int position = 1; position <= state.joint->count; ++position) {
        if (now.progress.has_final_value(code, position) &&
            now.progress.finish_of(code, position).stripe == nullptr) {
          positions.push_back(position);
        }
      }
      if (positions.empty()) continue;
      session_.out() << words::wrapped(
          fmt::format("draw the final stripe now, then record it: boltwitness stripe {}/{}", code,
                      record::write_positions(positions)),
          session_.page().width, "", "  ");
    }
  }

  // What is covered cannot be reached any more, so the guided way does not lead past it.
  static void refuse_to_cover(const progress::Progress& progress, const Step& step) {
    for (const auto& unmet : progress::unfinished_before(progress, *step.joint->state->joint)) {
      if (unmet.kind != plan::Precedence::Kind::Covers) continue;
      throw failure::Refusal(progress::in_words(unmet) +
                             "; finish it first (one line records what was done all the same)");
    }
  }

  // Asked once for each condition on which a final value waits; any other key than y, n and what
  // ends the input asks again.
  bool is_time_for_final_value(const Step& step) {
    const auto& when = step.joint->state->joint->final_when;
    if (step.joint->stage != plan::Stage::Final || conditions_met_.contains(when)) return true;
    while (true) {
      session_.out() << words::wrapped(act::final_value_question(step) + " y or n",
                                       session_.page().width, "", "  ")
                     << std::flush;
      const auto key = session_.key();
      if (!key || *key == 'n' || *key == 'q') return false;
      if (*key != 'y') continue;
      conditions_met_.insert(when);
      return true;
    }
  }

  // False where the person stops.
  bool answer(const Step& step) {
    while (true) {
      const auto key = session_.key();
      if (!key || *key == 'q') return false;
      try {
        if (*key == 'd' && done_as_planned(step)) return true;
        if (*key == 'k' && left_out(step)) return true;
        if (*key == 'v' && with_other_values(step)) return true;
        if (*key == 'u') return take_back();
      } catch (const failure::Failure& error) {
        if (!is_for_the_person(error)) throw;
        session_.remark(error.what());
      }
      session_.out() << screen::step_keys() << std::flush;
    }
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
    const auto done = act::record_work(logbook, session_.writer(), work);
    lines_.push_back(done.lines.front().stamp.line);
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
      const auto seen = ask(session_, "seen of thread, face and seat");
      if (!seen) return false;
      work.seen = record::read_text(*seen, "what was seen", 1000);
    }
    return record(work);
  }

  bool left_out(const Step& step) {
    const auto why = ask(session_, "why");
    if (!why) return false;
    auto work = work_on(step);
    work.skipped_why = record::read_text(*why, "why", 200);
    return record(work);
  }

  // The turn of an angle pass, else the wrench and its setting.
  bool with_other_values(const Step& step) {
    auto work = work_on(step);
    if (step.planned().pass.kind == record::PassKind::Angle) {
      const auto turned = ask(session_, "turned by, such as 62°");
      if (!turned) return false;
      work.turned = quantity::read_turn(*turned);
      return record(work);
    }
    const auto wrench = ask(session_, "wrench");
    if (!wrench) return false;
    const auto setting = ask(session_, "set to, on its scale");
    if (!setting) return false;
    work.wrench = *wrench;
    work.setting = record::read_setting(*setting);
    return record(work);
  }

  Guide guide_;
  const terminal::Session& session_;
  std::set<std::string> conditions_met_;
  std::vector<std::int64_t> lines_;  // written here and not taken back, the last one last
};

}  // namespace

int guide_tightening(const Guide& guide, const terminal::Session& session) {
  return GuidedTightening(guide, session).run();
}

}  // namespace dialogue
