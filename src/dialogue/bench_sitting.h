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

  // The one named last, else the logbook's only one; empty where it has to be asked for.
  [[nodiscard]] std::string wrench_at_hand(const record::Job& job) const;

  // What the wrench is to be set to for the next pull, where that is not what is proposed.
  [[nodiscard]] std::optional<double> chosen_setting() const { return set_; }
  void choose_setting(double setting) { set_ = setting; }

  void skip(int position);

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
  void remember(const record::Stamp& stamp);
  [[nodiscard]] bool taken_everywhere(screen::BenchPrompt at, const BenchAnswer& answer);
  void take_shouted(record::ShoutedLine line);
  void take_back();
  [[nodiscard]] std::optional<std::int64_t> last_pull() const;

  TeardownGuide guide_;
  const terminal::Session& session_;
  bool is_stopped_ = false;
  std::optional<progress::TeardownWalk> walk_;
  bool is_at_joint_ = false;  // else a joint has to be asked for
  std::optional<double> set_;
  std::vector<std::int64_t> lines_;  // written here and not taken back, the last one last
};

}  // namespace dialogue
