#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "act/finding_entry.h"
#include "act/standing.h"
#include "dialogue/bench_answer.h"
#include "dialogue/guided_teardown.h"
#include "progress/teardown_walk.h"
#include "screen/teardown_answer.h"

namespace dialogue {

// One call of the guided teardown, over all its prompts: where it is, what was written in it and
// can be taken back, and what may be answered everywhere.
class BenchSitting {
 public:
  // Refusal where the joint or wrench of the guide is not in the logbook.
  BenchSitting(TeardownGuide guide, const terminal::Session& session);

  // Reads the answer to a prompt and acts on it; `act` takes what is not the same everywhere. An
  // answer that cannot be is remarked on, and nothing is written. Where the prompt has keys of its
  // own, a key that neither counts there nor begins a line is answered at once as well.
  void answered(screen::BenchPrompt at, std::string_view own_keys,
                const std::function<void(const BenchAnswer&)>& act);

  void stop();
  void go_to(const record::Address& address);
  void leave_joint() { is_at_joint_ = false; }

  // Tells what was written here; the next position or pull is due.
  void written(const act::Done& done);
  void written(const act::TestDone& test);

  // Runs a deed on the logbook, held for it alone.
  template <class Deed>
  auto record(Deed&& deed) {
    auto logbook = session_.open_to_write();
    return std::forward<Deed>(deed)(logbook, session_.writer());
  }

  void take_wrench(const std::string& name);

  // The one named last in this joint; else the one used last, else the logbook's only one, where it
  // covers what is expected there and is not out of calibration on the day. Empty where it has to
  // be asked for.
  [[nodiscard]] std::string wrench_at_hand(const act::Standing& now, int position);

  // What the wrench is to be set to for the next pull, where that is not what is proposed.
  [[nodiscard]] std::optional<double> chosen_setting() const { return set_; }
  void choose_setting(double setting) { set_ = setting; }

  void skip(int position);

  // What goes down with the fasteners that come out from here on; the note with the next alone.
  [[nodiscard]] const screen::Kept& kept() const { return kept_; }
  void keep_bag(std::string bag) { kept_.bag = std::move(bag); }
  void keep_note(std::string note) { kept_.note = std::move(note); }

  // Records a removal anew, in place of the line that said otherwise. Refusal, with the command
  // that does it, where that line is about other positions too.
  void amend(const record::Entry<record::Removal>& before, const record::Removal& now);

  // True once after each joint that was gone to.
  [[nodiscard]] bool has_just_come() { return std::exchange(has_just_come_, false); }

  [[nodiscard]] const terminal::Session& session() const { return session_; }
  // How pulls are started, where it was said: for all tests of this sitting.
  [[nodiscard]] std::optional<record::Restart> restart() const { return guide_.restart; }
  void back_off() { guide_.restart = record::Restart::BackedOff; }
  [[nodiscard]] bool is_stopped() const { return is_stopped_; }
  [[nodiscard]] bool is_at_joint() const { return is_at_joint_; }

  // Through the joint named last; nothing before the first.
  [[nodiscard]] std::optional<progress::TeardownWalk>& walk() { return walk_; }
  [[nodiscard]] screen::TeardownPlace place_of(int position) const;

 private:
  // A line that was written here; where it took the place of another, that one.
  struct Written {
    std::int64_t line = 0;
    std::int64_t replaced = 0;
    std::optional<record::Removal> before = std::nullopt;
  };

  void remember(const record::Stamp& stamp);
  void take_back(const Written& last);
  [[nodiscard]] bool taken_everywhere(screen::BenchPrompt at, const BenchAnswer& answer);
  void take_shouted(record::ShoutedLine line);
  void take_bag_or_note(const BagOrNote& said);
  void take_back();
  [[nodiscard]] std::optional<std::int64_t> last_pull() const;

  TeardownGuide guide_;
  const terminal::Session& session_;
  bool is_stopped_ = false;
  std::optional<progress::TeardownWalk> walk_;
  bool is_at_joint_ = false;  // else a joint has to be asked for
  std::optional<double> set_;
  std::vector<Written> lines_;  // written here and not taken back, the last one last
  screen::Kept kept_;
  bool is_kept_ahead_ = false;  // said before the joint that it is for was named
  bool has_just_come_ = false;
  std::optional<std::string> used_last_;  // empty for none; nothing where not looked for yet
};

}  // namespace dialogue
