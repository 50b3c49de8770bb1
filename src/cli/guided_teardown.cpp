#include "cli/guided_teardown.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>

#include "cli/bench_answer.h"
#include "cli/correction.h"
#include "cli/errors.h"
#include "cli/exit_code.h"
#include "cli/lookup.h"
#include "cli/pull_entry.h"
#include "cli/removal_entry.h"
#include "cli/tightening_work.h"
#include "finding/position_search.h"
#include "progress/teardown_walk.h"
#include "quantity/input_error.h"
#include "report/teardown_report.h"

namespace cli {
namespace {

struct BreakLooseKey {
  char key;
  record::BreakLoose broke;
};
constexpr std::array kBreakLooseKeys = {BreakLooseKey{'n', record::BreakLoose::Normal},
                                        BreakLooseKey{'t', record::BreakLoose::Tight},
                                        BreakLooseKey{'z', record::BreakLoose::Seized},
                                        BreakLooseKey{'l', record::BreakLoose::AlreadyLoose},
                                        BreakLooseKey{'r', record::BreakLoose::Sheared},
                                        BreakLooseKey{'e', record::BreakLoose::Empty}};

// The logbook as it stands before an answer.
struct Standing {
  Standing(const logbook::Logbook& logbook, const std::string& code)
      : job(logbook.job_of(code)),
        survey(finding::survey(job)),
        joint(finding::joint_in(survey, code)),
        teardown(progress::teardown_of(job)) {}
  Standing(const Standing&) = delete;
  Standing& operator=(const Standing&) = delete;

  record::Job job;
  finding::Survey survey;
  const finding::JointState* joint;
  progress::Teardown teardown;
};

class GuidedTeardown {
 public:
  GuidedTeardown(TeardownGuide guide, const Session& session)
      : guide_(std::move(guide)), session_(session) {}

  int run() {
    if (!guide_.wrench.empty()) take_wrench(guide_.wrench);
    if (guide_.address) go_to(*guide_.address);
    while (!is_stopped_) {
      if (is_at_joint_) {
        ask_at_position();
      } else {
        ask_for_joint();
      }
    }
    return kDone;
  }

 private:
  // Puts the prompt, reads the answer and acts on it; `act` takes what is not the same everywhere.
  // An answer that cannot be is remarked on, and nothing is written.
  template <class Act>
  void answered(std::string_view own_keys, Act&& act) {
    const std::string keys = std::string(own_keys) + "uq?";
    const auto typed = session_.answer("> ", keys);
    try {
      if (!typed) return stop();
      const auto logbook = session_.open_to_read();
      const auto answer =
          read_bench_answer(*typed, keys, {logbook.joint_codes(), logbook.wrench_names()});
      if (!taken_everywhere(answer)) act(answer);
    } catch (const quantity::InputError& error) {
      session_.remark(error.what());
    } catch (const UsageError& error) {
      session_.remark(error.what());
    } catch (const Refusal& error) {
      session_.remark(error.what());
    }
  }

  bool taken_everywhere(const BenchAnswer& answer) {
    if (const auto* key = std::get_if<Key>(&answer)) {
      if (key->key == 'q') stop();
      if (key->key == 'u') take_back();
      if (key->key == '?') session_.out() << report::bench_keys(session_.page());
      return std::string_view("qu?").find(key->key) != std::string_view::npos;
    }
    if (const auto* elsewhere = std::get_if<Elsewhere>(&answer)) {
      go_to(elsewhere->address);
      return true;
    }
    if (const auto* line = std::get_if<record::ShoutedLine>(&answer)) {
      take_shouted(*line);
      return true;
    }
    return false;
  }

  void stop() {
    is_stopped_ = true;
    if (is_at_joint_) {
      session_.out() << fmt::format("stopped; bench {} goes on here\n", walk_->joint());
    }
  }

  void go_to(const record::Address& address) {
    const auto joint = joint_or_refuse(session_.open_to_read(), address.joint).content;
    if (!address.positions.empty()) check_positions(joint, address.positions);
    walk_.emplace(joint, address.positions);
    is_at_joint_ = true;
    set_.reset();
  }

  void written(const record::Stamp& stamp) {
    lines_.push_back(stamp.line);
    set_.reset();
    if (walk_) walk_->recorded();
  }

  void take_shouted(record::ShoutedLine line) {
    if (line.wrench.empty()) line.wrench = wrench_at_hand(session_.open_to_read().job());
    if (line.wrench.empty()) {
      throw quantity::InputError("with which wrench? Name it behind the readings, such as ... TW2");
    }
    written(record_shouted(session_, line, guide_.restart));
  }

  // The last answer, or the last pull of the test that was under way when this bench began.
  void take_back() {
    auto line = lines_.empty() ? last_pull() : std::optional(lines_.back());
    if (!line) {
      throw Refusal(
          "nothing has been answered here yet; an earlier line is struck by strike LINE --why");
    }
    if (!lines_.empty()) lines_.pop_back();
    auto logbook = session_.open_to_write();
    logbook::Recording recording(logbook, session_.writer());
    const auto stamp = strike_line(logbook, recording, *line, "taken back at the bench");
    recording.commit();
    session_.recorded({{stamp, fmt::format("line {} struck", *line)}});
    set_.reset();
    is_at_joint_ = walk_.has_value();
  }

  std::optional<std::int64_t> last_pull() const {
    if (!is_at_joint_) return std::nullopt;
    const Standing now(session_.open_to_read(), walk_->joint());
    const auto position = walk_->next(now.teardown);
    if (!position) return std::nullopt;
    const auto& pulls = progress::at(now.teardown, walk_->joint(), *position).pulls;
    if (pulls.empty()) return std::nullopt;
    return pulls.back()->stamp.line;
  }

  // --- which joint

  void ask_for_joint() {
    const auto under_way = walk_ ? std::string() : joint_under_way();
    session_.out() << (under_way.empty()
                           ? std::string("\nwhich joint? Enter or q quits; ? for more\n")
                           : fmt::format(
                                 "\na test is under way in {}: Enter goes on there; or name "
                                 "another joint; ? for more\n",
                                 under_way));
    answered("", [&](const BenchAnswer& answer) {
      if (!std::holds_alternative<Key>(answer)) {
        throw quantity::InputError("first the joint, such as J06 or J06/1-4");
      }
      if (under_way.empty()) return stop();
      go_to({under_way, {}});
    });
  }

  // Where the latest pull belongs to a test that was left unfinished.
  std::string joint_under_way() const {
    const auto job = session_.open_to_read().job();
    const record::Entry<record::Pull>* latest = nullptr;
    for (const auto& [place, teardown] : progress::teardown_of(job)) {
      if (teardown.pulls.empty() || record::joint_in(job, place.first) == nullptr) continue;
      const auto* pull = teardown.pulls.back();
      if (latest == nullptr || record::is_later(pull->stamp, latest->stamp)) latest = pull;
    }
    return latest == nullptr ? std::string() : latest->content.joint;
  }

  // --- which position

  void ask_at_position() {
    const auto logbook = session_.open_to_read();
    (void)joint_or_refuse(logbook, walk_->joint());
    const Standing now(logbook, walk_->joint());
    const auto position = walk_->next(now.teardown);
    if (!position) return tell_done(now);
    if (progress::at(now.teardown, walk_->joint(), *position).removal == nullptr) {
      return ask_how_it_broke(now, *position);
    }
    ask_for_pull(now, *position);
  }

  void tell_done(const Standing& now) {
    const auto open = walk_->open(now.teardown);
    const auto all = walk_->positions().size();
    session_.out() << fmt::format("\n{}: {} of {} done{}\n", walk_->joint(), all - open.size(), all,
                                  open.empty() ? "" : ", skipped " + record::write_positions(open));
    is_at_joint_ = false;
  }

  report::TeardownPlace place_of(int position) const {
    const auto& positions = walk_->positions();
    const auto before = std::ranges::find(positions, position) - positions.begin();
    return {walk_->joint(), position, static_cast<std::size_t>(before) + 1, positions.size()};
  }

  // --- how it broke loose

  void ask_how_it_broke(const Standing& now, int position) {
    refuse_behind_hold_point(now.job, walk_->joint(), session_.done_at());
    const bool marked = unmarked_ != position;
    session_.out() << report::break_loose_prompt(place_of(position), marked, session_.page());
    std::string keys = "mk";
    for (const auto& [key, broke] : kBreakLooseKeys) keys += key;
    answered(keys, [&](const BenchAnswer& answer) {
      const auto* key = std::get_if<Key>(&answer);
      if (key == nullptr) {
        throw quantity::InputError("it is not out yet: first how it broke loose, Enter for normal");
      }
      if (key->key == 'k') {
        walk_->skip(position);
      } else if (key->key == 'm') {
        unmarked_ = marked ? position : 0;
      } else {
        take_removal(position, broke_by(key->key), marked);
      }
    });
  }

  static record::BreakLoose broke_by(char key) {
    const auto* found = std::ranges::find(kBreakLooseKeys, key, &BreakLooseKey::key);
    return found == kBreakLooseKeys.end() ? record::BreakLoose::Normal : found->broke;
  }

  void take_removal(int position, record::BreakLoose broke, bool marked) {
    record::Removal removal;
    removal.joint = walk_->joint();
    removal.positions = {position};
    removal.broke = broke;
    removal.marked = marked;
    written(record_removal(session_, removal));
    unmarked_ = 0;
    if (const auto why = finding::nothing_to_search(removal)) session_.remark(*why);
  }

  // --- pull by pull

  std::string wrench_at_hand(const record::Job& job) const {
    if (!guide_.wrench.empty()) return guide_.wrench;
    const auto names = record::wrench_names(job);
    return names.size() == 1 ? std::string(names.front()) : std::string();
  }

  void ask_for_pull(const Standing& now, int position) {
    const auto& pulls = progress::at(now.teardown, walk_->joint(), position).pulls;
    const auto name = pulls.empty() ? wrench_at_hand(now.job) : pulls.front()->content.wrench;
    if (name.empty()) return ask_for_wrench(now);
    const auto wrench = wrench_or_refuse(session_.open_to_read(), name).content;
    const auto test = pulls.empty() ? test_without_readings(*now.joint->joint, position, wrench)
                                    : record::test_of(pulls);
    const auto proposal = finding::next_setting_at(*now.joint, test, wrench);
    session_.out() << report::pull_prompt(place_of(position), test, proposal, set_,
                                          session_.page());
    answered("sopnfk", [&](const BenchAnswer& answer) {
      if (const auto* named = std::get_if<NamedWrench>(&answer)) {
        if (!pulls.empty()) enter_so_far(position);
        take_wrench(named->name);
        walk_->test_again(position);
      } else if (const auto* chosen = std::get_if<ChosenSetting>(&answer)) {
        check_may_be_set(*now.joint, test, wrench, chosen->setting);
        set_ = chosen->setting;
      } else if (const auto* pull = std::get_if<OwnPull>(&answer)) {
        take_pull(test, pull->reading, pull->typed);
      } else {
        take_key(std::get<Key>(answer).key, test, proposal);
      }
    });
  }

  void take_key(char key, const record::Measured& test, const finding::Proposal& proposal) {
    const auto* next = std::get_if<finding::NextSetting>(&proposal);
    if (key == 'k') {
      walk_->skip(test.position);
      set_.reset();
    } else if (key == 'f' || (key == '\n' && next == nullptr && !set_)) {
      enter_so_far(test.position);
    } else if (key == '\n') {
      if (!set_) set_ = next->setting;
    } else if (next == nullptr && !set_) {
      throw quantity::InputError(
          "no setting is proposed here; type the one you pulled at with the mark, such as 90s");
    } else {
      const record::SettingReading reading{set_ ? *set_ : next->setting, mark_by(key), {}};
      take_pull(test, reading, record::write_exact(reading));
    }
  }

  static record::Mark mark_by(char key) {
    for (const auto& word : record::Vocabulary<record::Mark>::kWords) {
      if (word.text.front() == key) return word.value;
    }
    return record::Mark::NoMove;
  }

  void take_pull(const record::Measured& test, const record::SettingReading& reading,
                 const std::string& typed) {
    written(record_pull(
        session_, {{{test.joint, {test.position}}, test.wrench}, guide_.restart, reading, typed}));
  }

  void enter_so_far(int position) {
    written(record_test_so_far(session_, {walk_->joint(), {position}}));
  }

  // A pull that was made is recorded whatever it was; one to come must not harm the bolt.
  static void check_may_be_set(const finding::JointState& joint, record::Measured test,
                               const record::Wrench& wrench, double setting) {
    const auto ceiling = finding::ceiling_at(joint, test);
    if (ceiling && record::applied_torque(test, setting) > ceiling->torque) {
      throw Refusal(fmt::format(
          "{} would pass the ceiling, {}; where it was pulled all the same, type it with the mark, "
          "such as {}s",
          quantity::write_exact(quantity::StatedTorque{setting, test.unit}),
          finding::name_of(ceiling->from), quantity::write_exact(setting)));
    }
    record::add_readings(test, {{setting, record::Mark::Short, {}}}, "");
    record::check_readings(test.readings);
    check_on_scale(test, wrench);
  }

  void ask_for_wrench(const Standing& now) {
    session_.out() << report::wrapped(
        fmt::format("\nwhich wrench? {}", fmt::join(record::wrench_names(now.job), ", ")),
        session_.page().width, "", "  ");
    answered("", [&](const BenchAnswer& answer) {
      const auto* named = std::get_if<NamedWrench>(&answer);
      if (named == nullptr) throw quantity::InputError("name one of the wrenches");
      take_wrench(named->name);
    });
  }

  void take_wrench(const std::string& name) {
    guide_.wrench = wrench_or_refuse(session_.open_to_read(), name).content.name;
    set_.reset();
  }

  TeardownGuide guide_;
  const Session& session_;
  bool is_stopped_ = false;
  std::optional<progress::TeardownWalk> walk_;  // of the joint named last
  bool is_at_joint_ = false;                    // else a joint has to be asked for
  std::optional<double> set_;                   // what the wrench is set to for the next pull
  int unmarked_ = 0;                            // the position that has no mark
  std::vector<std::int64_t> lines_;  // written here and not taken back, the last one last
};

}  // namespace

int guide_teardown(const TeardownGuide& guide, const Session& session) {
  return GuidedTeardown(guide, session).run();
}

}  // namespace cli
