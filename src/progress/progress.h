#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "finding/entered_wrenches.h"
#include "plan/reassembly_plan.h"
#include "record/job.h"

namespace progress {

// One position in one pass of the plan, and how it stands.
struct Step {
  enum class Stands { Open, Done, LeftOut };
  const plan::PlannedJoint* joint = nullptr;
  std::size_t pass = 0;  // in joint->passes
  int position = 0;
  Stands stands = Stands::Open;
  const record::Entry<record::Tightening>* entry = nullptr;  // the latest that did or left it
  // The line that had turned it already when `entry` turned it by the same angle once more, with
  // nothing slackened between; none once it was started again.
  const record::Entry<record::Tightening>* on_top_of = nullptr;
  // The line of somebody else that had brought it to its torque already when `entry` did, with
  // nothing between that sent it back.
  const record::Entry<record::Tightening>* done_before_by_other = nullptr;
  // The line after which it has to be done, where it had been done before that or was passed over:
  // what opened it again, or the pass before it that had to come first. None once it is done.
  const record::Stamp* to_follow = nullptr;

  [[nodiscard]] const plan::PlannedPass& planned() const { return joint->passes[pass]; }
  [[nodiscard]] int pass_number() const { return planned().number; }
};

// What was recorded for a position but is no step of the plan any more: the specification, the
// rule or the count has changed since.
struct OtherWork {
  const record::Entry<record::Tightening>* entry = nullptr;
  int position = 0;
};

// Work that was written after the line that it has to follow, and dated before it, so that it
// counts for nothing: its step is open.
struct DatedTooEarly {
  const record::Entry<record::Tightening>* work = nullptr;
  const record::Stamp* follows = nullptr;  // what opened its step again, or the pass before it
};

// From when to when a position had its final value.
struct Held {
  const record::Stamp* since = nullptr;
  const record::Stamp* until = nullptr;  // the line that sent it back; none where it has it still
};

// What stands on a position after its passes. All is forgotten when it comes out again.
struct Finish {
  // The line that last brought it to its final value, even where it was sent back since.
  const record::Stamp* reached = nullptr;
  const record::Entry<record::Tightening>* second_check = nullptr;
  // The final stripe, where it stands for the final value: drawn when that had been reached, not
  // found turned, and nothing done since but the check once more.
  const record::Entry<record::FinalStripe>* stripe = nullptr;
  // The line of somebody else whose stripe stood already when this one was drawn.
  const record::Entry<record::FinalStripe>* striped_before_by_other = nullptr;
  const record::Entry<record::FinalStripe>* drawn = nullptr;  // the last, whether it stands or not
  // The last look that found it turned; none once a new one stands.
  const record::Entry<record::Recheck>* turned = nullptr;
  // The line since then that tells what was seen of it.
  const record::Entry<record::Tightening>* looked_at = nullptr;
  // The last found-torque test, or pull of one, that broke it loose after something had been done;
  // none once it has reached its final value again.
  const record::Stamp* tested = nullptr;
  // The line that last turned it by an angle; none once a pass put a new one in.
  const record::Entry<record::Tightening>* angled = nullptr;
  std::vector<Held> held;  // in the order of time; only the last may have no end
};

// How far the plan has been carried out. It points into plan and job.
class Progress {
 public:
  // Every tightening with a wrench that is in the logbook counts for the step of its pass number
  // where that still asks for what was done, else for the first pass that does. What was done
  // before the position last came out counts no longer (came_out). A position that was loosened or
  // got a new fastener has the passes behind that before it again. A turn outside its window or a
  // torque above all limits sends the position back to the pass from which the plan has it start
  // again; so does its coming out in the midst of them, and what was gone on with after that counts
  // once its first pass is done; else to its first; later passes count no more until that is done.
  // So does an angle that is turned a second time: it comes on top of the first, unless a pass
  // before it was done anew, which starts it again and has the angles behind it open. A pull to
  // less than what passes behind it had reached has those open again: it does nothing to what holds
  // more, so that it was slackened before, and the last value is what it stands at. A final
  // stripe that was found turned sends it back to its first pass too, and so does a found-torque
  // test, which breaks it loose, a decision to tighten it again or to renew it, and the line that
  // says that it was repaired, where something had been done. Where the old fastener was put back
  // against a decision to renew it, nothing counts before the plan's new one is in. A second check
  // counts until the position is tightened again.
  Progress(const record::Job& job, const plan::ReassemblyPlan& plan);

  // Counts one more tightening, as if it had stood in the job, and costs no more for what has been
  // counted at other positions. The entry has to outlive this.
  void count(const record::Entry<record::Tightening>& entry);

  // The plan that is carried out.
  [[nodiscard]] const plan::ReassemblyPlan& plan() const { return *plan_; }

  // All steps, in the order of the plan.
  [[nodiscard]] const std::vector<Step>& steps() const { return steps_; }

  // The first open step, of one joint where it is named; where none is left, the first one left
  // out; nothing at the end.
  [[nodiscard]] const Step* next(std::optional<std::string_view> joint = std::nullopt) const;

  // The step with this number of the plan, or nothing where the position has none such.
  [[nodiscard]] const Step* step(std::string_view joint, int pass_number, int position) const;

  // The steps of one position, in the order of its passes.
  [[nodiscard]] std::vector<const Step*> steps_of(std::string_view joint, int position) const;

  // True where the last pass of the position is done, and the pass that sets its final value; of
  // one whose final stripe turned, every pass, the slackening first.
  [[nodiscard]] bool has_final_value(std::string_view joint, int position) const;

  // The last line that set a wrench at this position, where it has its final value and that line
  // set less than the least that is specified; nothing otherwise.
  [[nodiscard]] const record::Entry<record::Tightening>* ended_below(std::string_view joint,
                                                                     int position) const;

  // The first pass whose value this work would undo at the position: it comes behind that of the
  // work, which goes to less; nothing where it undoes none.
  [[nodiscard]] const Step* undone_by(const record::Tightening& done, int position) const;

  // The pass that has to be done before a later one counts at this position; nothing where each
  // counts as it comes.
  [[nodiscard]] std::optional<int> starts_again_at(std::string_view joint, int position) const;

  // It had it at this moment, whatever sent it back since.
  [[nodiscard]] bool had_final_value(std::string_view joint, int position,
                                     const record::Stamp& moment) const;

  [[nodiscard]] Finish finish_of(std::string_view joint, int position) const;

  // The line that turned a one-time fastener by its angle, where a pass of before that is to be
  // done at it now, and nothing before that puts a new one in: it is not tightened a second time.
  // Nothing otherwise.
  [[nodiscard]] const record::Entry<record::Tightening>* spent_by(std::string_view joint,
                                                                  int position) const;

  // When the position last came out to be put back from the first pass on; nothing where it never
  // did. Taken out between the passes before "new bolts" and the new one, it goes on behind those.
  [[nodiscard]] const record::Stamp* came_out(std::string_view joint, int position) const;

  // The work on this position that was written after the line that took it out, and dated before
  // it: it counts for nothing of what went back since.
  [[nodiscard]] std::vector<const record::Entry<record::Tightening>*> dated_before_out(
      std::string_view joint, int position) const;

  // The work on this position since then that is dated before the line that it has to follow, and
  // was written after that; in the order done. Not what was written in a copy of the logbook apart
  // from that line, where nobody could know of it.
  [[nodiscard]] std::vector<DatedTooEarly> dated_too_early(std::string_view joint,
                                                           int position) const;

  // The line that was done last at this position since then, and counts; nothing where none does.
  [[nodiscard]] const record::Stamp* last_counted(std::string_view joint, int position) const;

  // The last work on this position before it came out in the midst of its passes, before a final
  // stripe was drawn; nothing where it did not.
  [[nodiscard]] const record::Entry<record::Tightening>* broken_off(std::string_view joint,
                                                                    int position) const;

  // The work on this position that was done in a copy of the logbook apart from that in which what
  // its steps stand on was done: by somebody who could not see the one, so that neither takes the
  // place of the other.
  [[nodiscard]] std::vector<const record::Entry<record::Tightening>*> done_apart(
      std::string_view joint, int position) const;

  [[nodiscard]] const std::vector<OtherWork>& other_work() const { return other_work_; }

 private:
  using Event =
      std::variant<const record::Entry<record::Tightening>*,
                   const record::Entry<record::FinalStripe>*, const record::Entry<record::Recheck>*,
                   const record::Entry<record::Measured>*, const record::Entry<record::Pull>*,
                   const record::Entry<record::Disposition>*>;
  struct Place {
    std::vector<std::size_t> steps;
    const record::Stamp* came_out = nullptr;  // the last time; may be none
    std::vector<Event> counted;               // in the order done
    std::vector<const record::Entry<record::Tightening>*> dated_before_out;
    const record::Entry<record::Tightening>* broken_off = nullptr;  // see above
    Finish finish;
    std::optional<int> to_restart_at;  // the pass that has to be done before any later one counts
  };

  // By position; looked up so often that the code is not compared again for each of them.
  using Places = std::map<int, Place>;

  static const record::Stamp& stamp_of(const Event& event);
  void go_on_between_passes(const record::Job& job);
  void find_broken_off(const record::Job& job);
  void begin_anew(Place& place);
  [[nodiscard]] bool went_through(const std::vector<std::size_t>& steps,
                                  const std::vector<const record::Tightening*>& work) const;
  template <class Content>
  void count_everywhere(const record::Entry<Content>& entry);
  void count_event(Place& place, const Event& event, int position);
  void count_at(Place& place, const record::Entry<record::Tightening>& entry, int position);
  void count_at(Place& place, const record::Entry<record::FinalStripe>& entry, int position);
  void count_at(Place& place, const record::Entry<record::Recheck>& entry, int position);
  void count_at(Place& place, const record::Entry<record::Measured>& entry, int position);
  void count_at(Place& place, const record::Entry<record::Pull>& entry, int position);
  void count_at(Place& place, const record::Entry<record::Disposition>& entry, int position);
  void broken_loose(Place& place, const record::Stamp& tested);
  [[nodiscard]] bool is_begun(const Place& place) const;
  [[nodiscard]] bool begins_with_new_one(const Place& place) const;
  void count_decisions(const record::Job& job);
  void lead_on_after(const Place& place, const record::Stamp& by, int pass_number);
  void count_anew(Place& place, int position);
  [[nodiscard]] bool is_over_torque(const record::Tightening& tightening, const Place& place) const;
  [[nodiscard]] std::vector<const Step*> steps_at(const Place& place) const;
  [[nodiscard]] bool has_final_value(const Place& place) const;
  void start_again(Place& place, int pass_number, const record::Stamp& by);
  void reopen_behind(const Place& place, const Step& step, const record::Stamp& by);
  [[nodiscard]] bool starts_angles_again(const Place& place, const Step& step) const;
  [[nodiscard]] bool is_less_than_behind(const Place& place, const Step& step,
                                         const record::Tightening& done) const;
  void count_one(Place& place, const Event& event, int position);
  // Its number in steps_; nothing where the plan does not ask for what was done.
  [[nodiscard]] std::optional<std::size_t> step_done(const Place& place,
                                                     const record::Tightening& tightening) const;
  // Of the joint; nothing where the plan has none there.
  [[nodiscard]] const Places* places_of(std::string_view joint) const;
  [[nodiscard]] Places* places_of(std::string_view joint);
  [[nodiscard]] const Place* place(std::string_view joint, int position) const;

  const plan::ReassemblyPlan* plan_;
  const record::Apart* apart_;
  std::vector<Step> steps_;
  std::map<std::string, Places> places_;  // by folded code
  std::vector<OtherWork> other_work_;
  finding::EnteredWrenches wrenches_;
};

}  // namespace progress
