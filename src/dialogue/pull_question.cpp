#include "dialogue/pull_question.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "act/lookup.h"
#include "act/pull_entry.h"
#include "dialogue/kept_question.h"
#include "failure/failure.h"
#include "finding/position_search.h"

namespace dialogue {
namespace {

record::Mark mark_by(char key) {
  for (const auto& word : record::Vocabulary<record::Mark>::kWords) {
    if (word.text.front() == key) return word.value;
  }
  return record::Mark::NoMove;
}

// What is to be known of a wrench before it is taken on this day; empty where it is in calibration.
std::string calibration_note(const record::Wrench& wrench, record::Day day) {
  switch (record::calibration_on(wrench, day)) {
    case record::Calibration::Expired:
      return "out of calibration since " + record::write_day(*record::calibration_ends(wrench));
    case record::Calibration::NotYet:
      return "not calibrated before " + record::write_day(*wrench.calibrated);
    case record::Calibration::Unknown:
      return "no calibration on record";
    case record::Calibration::Valid:
      break;
  }
  return {};
}

// A pull that was made is recorded whatever it was; one to come must not harm the bolt.
void check_may_be_set(const finding::JointState& joint, record::Measured test,
                      const record::Wrench& wrench, double setting) {
  const auto ceiling = finding::ceiling_at(joint, test);
  if (ceiling && record::applied_torque(test, setting) > ceiling->torque) {
    throw failure::Refusal(fmt::format(
        "{} would pass the ceiling, {}; where it was pulled all the same, type it with the mark, "
        "such as {}s",
        quantity::write_exact(quantity::StatedTorque{setting, test.unit}),
        finding::name_of(ceiling->from), quantity::write_exact(setting)));
  }
  record::add_readings(test, {{setting, record::Mark::Short, {}}}, "");
  record::check_readings(test.readings);
  act::check_on_scale(test, wrench);
}

}  // namespace

void PullQuestion::ask(const act::Standing& now, int position) {
  const auto& session = sitting_.session();
  const auto& pulls = progress::at(now.teardown, sitting_.walk()->joint(), position).pulls;
  const auto name =
      pulls.empty() ? sitting_.wrench_at_hand(now, position) : pulls.front()->content.wrench;
  if (name.empty()) return ask_for_wrench(now, position);
  const auto wrench = act::wrench_or_refuse(session.open_to_read(), name).content;
  auto test = pulls.empty() ? act::test_without_readings(*now.joint->joint, position, wrench)
                            : record::test_of(pulls);
  if (const auto restart = sitting_.restart()) test.restart = *restart;
  const auto proposal = finding::next_setting_at(*now.joint, test, wrench);
  session.out() << screen::pull_prompt(sitting_.place_of(position), test, proposal,
                                       sitting_.chosen_setting(), session.prose_page());
  sitting_.answered(screen::BenchPrompt::Pull, "sopnbfgwk", [&](const BenchAnswer& answer) {
    if (const auto* named = std::get_if<NamedWrench>(&answer)) {
      if (!pulls.empty()) enter_so_far(position);
      sitting_.take_wrench(named->name);
      sitting_.walk()->test_again(position);
    } else if (const auto* chosen = std::get_if<ChosenSetting>(&answer)) {
      const double setting = record::setting_on(wrench, chosen->setting);
      check_may_be_set(*now.joint, test, wrench, setting);
      sitting_.choose_setting(setting);
    } else if (const auto* pull = std::get_if<OwnPull>(&answer)) {
      take_pull(test, pull->reading, pull->typed);
    } else if (const char key = std::get<Key>(answer).key; !ask_what_is_kept(
                   sitting_, key,
                   progress::at(now.teardown, sitting_.walk()->joint(), position).removal)) {
      take_key(key, test, proposal);
    }
  });
}

void PullQuestion::take_key(char key, const record::Measured& test,
                            const finding::Proposal& proposal) {
  const auto set = sitting_.chosen_setting();
  const auto* next = std::get_if<finding::NextSetting>(&proposal);
  if (key == 'k') {
    sitting_.skip(test.position);
  } else if (key == 'b') {
    sitting_.back_off();
  } else if (key == 'f' || (key == '\n' && next == nullptr && !set)) {
    enter_so_far(test.position);
  } else if (key == '\n') {
    if (!set) sitting_.choose_setting(next->setting);
  } else if (next == nullptr && !set) {
    throw failure::InputError(
        "no setting is proposed here; type the one you pulled at with the mark, such as 90s");
  } else {
    const record::SettingReading reading{set ? *set : next->setting, mark_by(key), {}};
    take_pull(test, reading, record::write_exact(reading));
  }
}

void PullQuestion::take_pull(const record::Measured& test, const record::SettingReading& reading,
                             const std::string& typed) {
  sitting_.written(sitting_.record([&](auto& logbook, const auto& writer) {
    return act::record_pull(
        logbook, writer,
        {{{test.joint, {test.position}}, test.wrench}, sitting_.restart(), reading, typed});
  }));
}

void PullQuestion::enter_so_far(int position) {
  sitting_.written(sitting_.record([&](auto& logbook, const auto& writer) {
    return act::record_test_so_far(logbook, writer, {sitting_.walk()->joint(), {position}});
  }));
}

void PullQuestion::ask_for_wrench(const act::Standing& now, int position) {
  const auto& session = sitting_.session();
  const auto range = finding::searched_range(*now.joint, position);
  screen::WrenchesForTest wrenches;
  std::vector<std::string> fit;
  if (range) {
    wrenches.range = fmt::format("{} to {}", quantity::write_rounded(range->low, now.joint->unit),
                                 quantity::write_rounded(range->high, now.joint->unit));
  }
  for (const auto name : record::wrench_names(now.job)) {
    const auto& wrench = *record::wrench_on(now.job, name, session.day());
    const auto calibration = calibration_note(wrench, session.day());
    const auto with = [&](const std::string& note) {
      return note.empty() ? std::string(name) : fmt::format("{} ({})", name, note);
    };
    if (range && !finding::covers(wrench, *range)) {
      wrenches.others.push_back(
          with(record::scale_text(wrench) + (calibration.empty() ? "" : ", " + calibration)));
    } else if (record::is_out_of_calibration(wrench, session.day())) {
      wrenches.run_out.push_back(with(calibration));
    } else {
      wrenches.covering.push_back(with(calibration));
      fit.emplace_back(name);
    }
  }
  session.out() << screen::wrench_prompt(sitting_.place_of(position), wrenches,
                                         session.prose_page());
  sitting_.answered(screen::BenchPrompt::Wrench, "k", [&](const BenchAnswer& answer) {
    if (const auto* named = std::get_if<NamedWrench>(&answer)) {
      return sitting_.take_wrench(named->name);
    }
    const auto* key = std::get_if<Key>(&answer);
    if (key != nullptr && key->key == 'k') return sitting_.skip(position);
    if (key != nullptr && fit.size() == 1) return sitting_.take_wrench(fit.front());
    throw failure::InputError(fmt::format("name one of the wrenches: {}",
                                          fmt::join(record::wrench_names(now.job), ", ")));
  });
}

}  // namespace dialogue
