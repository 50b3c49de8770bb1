#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "act/hold_point_entry.h"
#include "act/lookup.h"
#include "act/pull_entry.h"
#include "act/standing.h"
#include "act/under_cover.h"
#include "finding/not_to_be_tested.h"
#include "finding/position_search.h"
#include "phone/views.h"
#include "progress/teardown_turn.h"
#include "progress/teardown_walk.h"
#include "screen/teardown_joints.h"
#include "words/wrenches_for_test.h"

namespace phone {
namespace {

using nlohmann::ordered_json;

constexpr std::size_t kPositionsAhead = 12;
constexpr std::size_t kPullsAhead = 40;

// What is to be pulled at next, and next after that while the mark stays short.
void put_ladder(ordered_json& row, const finding::JointState& joint, record::Measured test,
                const record::Wrench& wrench) {
  auto ladder = ordered_json::array();
  row["stop"] = nullptr;
  while (ladder.size() < kPullsAhead) {
    const auto proposal = finding::next_setting_at(joint, test, wrench);
    if (const auto* stop = std::get_if<finding::Stop>(&proposal)) {
      row["stop"] = stop->text;
      break;
    }
    const auto& next = std::get<finding::NextSetting>(proposal);
    ladder.push_back({{"setting", next.setting}, {"why", next.why}});
    record::add_readings(test, {{next.setting, record::Mark::Short, {}}}, "");
  }
  row["ladder"] = std::move(ladder);
}

// One call of the view: a joint, and what the page has chosen.
class TeardownView {
 public:
  TeardownView(const logbook::Logbook& logbook, record::Moment now, const Chosen& chosen)
      : logbook_(logbook),
        day_(record::local_day(now)),
        wrench_(chosen_text(chosen, "wrench")),
        standing_(logbook,
                  act::joint_or_refuse(logbook, chosen_text(chosen, "joint")).content.code),
        joint_(*standing_.joint),
        walk_(*joint_.joint, {}) {
    if (!wrench_.empty()) wrench_ = act::wrench_or_refuse(logbook, wrench_).content.name;
    const auto restart = chosen_text(chosen, "restart");
    if (!restart.empty()) restart_ = record::read_word<record::Restart>(restart);
    untested_ = progress::led_out_untested(joint_, standing_.teardown, walk_.positions());
    walk_.leave_untested(untested_);
  }

  ordered_json row_of(int position, bool with_ladder) {
    const auto& at = progress::at(standing_.teardown, joint_.joint->code, position);
    ordered_json row = {{"position", position}, {"state", state_of(at, position)}};
    row["bag"] = at.removal == nullptr ? "" : at.removal->content.bag;
    auto readings = ordered_json::array();
    for (const auto* pull : at.pulls) {
      readings.push_back({{"setting", pull->content.reading.setting},
                          {"mark", record::word_of(pull->content.reading.mark)}});
    }
    row["readings"] = std::move(readings);
    row["nothing"] = nullptr;
    if (at.removal != nullptr) {
      if (const auto nothing = finding::nothing_to_search(at.removal->content)) {
        row["nothing"] = *nothing;
      }
    }
    if (with_ladder) put_test(row, at, position);
    return row;
  }

  ordered_json whole(record::Moment now) {
    const auto& what = *joint_.joint;
    const auto behind = act::behind_hold_point(standing_.job, what.code, now);
    const auto* tightened = progress::last_tightened(standing_.job, joint_);
    auto warnings = finding::warnings_before_test(joint_, walk_.positions());
    // A whole machine comes in with its covers on.
    for (auto& first : act::covers_off_first(logbook_, what.code)) {
      warnings.push_back(std::move(first));
    }
    ordered_json view = {{"joint", what.code},
                         {"holds", what.holds},
                         {"opening", screen::joint_in_a_line(joint_)},
                         {"refused", behind.empty() ? ordered_json(nullptr) : ordered_json(behind)},
                         {"again", nullptr},
                         {"warnings", std::move(warnings)}};
    if (tightened != nullptr) {
      view["again"] =
          fmt::format("{} is back together, tightened {} (line {}): this takes it apart again",
                      what.code, record::write_local(tightened->done_at), tightened->line);
    }
    view["broke"] = ordered_json::array();
    for (const auto& word : record::Vocabulary<record::BreakLoose>::kWords) {
      view["broke"].push_back(word.text);
    }
    auto rows = ordered_json::array();
    std::size_t ahead = 0;
    for (const int position : walk_.positions()) {
      const auto& at = progress::at(standing_.teardown, what.code, position);
      const bool is_open = state_of(at, position) != "done";
      rows.push_back(row_of(position, is_open && ahead < kPositionsAhead));
      if (is_open) ++ahead;
    }
    view["positions"] = std::move(rows);
    return view;
  }

 private:
  [[nodiscard]] std::string state_of(const progress::PositionTeardown& at, int position) const {
    if (!at.pulls.empty()) return "testing";
    if (at.removal == nullptr) return "in";
    return progress::is_finished(at) || untested_.contains(position) ? "done" : "untested";
  }

  // With which wrench, and at what; those to choose from where none is at hand.
  void put_test(ordered_json& row, const progress::PositionTeardown& at, int position) {
    row["wrench"] = nullptr;
    row["unit"] = nullptr;
    row["ladder"] = ordered_json::array();
    row["stop"] = nullptr;
    row["wrenches"] = nullptr;
    if (untested_.contains(position)) return;
    const auto name = at.pulls.empty() ? wrench_for(position) : at.pulls.front()->content.wrench;
    if (name.empty()) {
      const auto wrenches = words::wrenches_to_choose_from(standing_.job, joint_, position, day_);
      row["wrenches"] = {
          {"fit", wrenches.fit},         {"covering", wrenches.covering},
          {"run_out", wrenches.run_out}, {"others", wrenches.others},
          {"range", wrenches.range},     {"names", record::wrench_names(standing_.job)}};
      return;
    }
    const auto& wrench = *record::wrench_in(standing_.job, name);
    auto test = at.pulls.empty() ? act::test_without_readings(*joint_.joint, position, wrench)
                                 : record::test_of(at.pulls);
    if (restart_) test.restart = *restart_;
    row["wrench"] = wrench.name;
    row["unit"] = quantity::name_of(test.unit);
    put_ladder(row, joint_, std::move(test), wrench);
  }

  std::string wrench_for(int position) {
    if (!wrench_.empty()) return wrench_;
    if (!used_last_) used_last_ = logbook_.wrench_used_last();
    return progress::wrench_at_hand(standing_.job, joint_, position, *used_last_, day_);
  }

  const logbook::Logbook& logbook_;
  record::Day day_;
  std::string wrench_;
  std::optional<record::Restart> restart_;
  act::Standing standing_;
  const finding::JointState& joint_;
  progress::TeardownWalk walk_;
  std::set<int> untested_;
  std::optional<std::string> used_last_;
};

}  // namespace

nlohmann::ordered_json teardown_view(const logbook::Logbook& logbook, record::Moment now,
                                     const Chosen& chosen) {
  return TeardownView(logbook, now, chosen).whole(now);
}

}  // namespace phone
