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
      act::check_may_be_set(*now.joint, test, wrench, setting);
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
  const auto wrenches =
      words::wrenches_to_choose_from(now.job, *now.joint, position, session.day());
  session.out() << screen::wrench_prompt(sitting_.place_of(position), wrenches,
                                         session.prose_page());
  sitting_.answered(screen::BenchPrompt::Wrench, "k", [&](const BenchAnswer& answer) {
    if (const auto* named = std::get_if<NamedWrench>(&answer)) {
      return sitting_.take_wrench(named->name);
    }
    const auto* key = std::get_if<Key>(&answer);
    if (key != nullptr && key->key == 'k') return sitting_.skip(position);
    if (key != nullptr && wrenches.fit.size() == 1) {
      return sitting_.take_wrench(wrenches.fit.front());
    }
    throw failure::InputError(fmt::format("name one of the wrenches: {}",
                                          fmt::join(record::wrench_names(now.job), ", ")));
  });
}

}  // namespace dialogue
