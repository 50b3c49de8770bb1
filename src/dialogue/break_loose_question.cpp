#include "dialogue/break_loose_question.h"

#include <algorithm>
#include <array>

#include "act/removal_entry.h"
#include "dialogue/kept_question.h"
#include "failure/failure.h"
#include "finding/position_search.h"

namespace dialogue {
namespace {

struct BreakLooseKey {
  char key;
  record::BreakLoose broke;
};
// Enter alone is normal: n is what a pull without movement is called.
constexpr std::array kBreakLooseKeys = {
    BreakLooseKey{'t', record::BreakLoose::Tight}, BreakLooseKey{'z', record::BreakLoose::Seized},
    BreakLooseKey{'l', record::BreakLoose::AlreadyLoose},
    BreakLooseKey{'r', record::BreakLoose::Sheared}, BreakLooseKey{'e', record::BreakLoose::Empty}};

record::BreakLoose broke_by(char key) {
  const auto* found = std::ranges::find(kBreakLooseKeys, key, &BreakLooseKey::key);
  return found == kBreakLooseKeys.end() ? record::BreakLoose::Normal : found->broke;
}

}  // namespace

void BreakLooseQuestion::ask(int position) {
  const auto& session = sitting_.session();
  const bool marked = unmarked_ != position;
  session.out() << screen::break_loose_prompt(sitting_.place_of(position), marked, sitting_.kept(),
                                              session.prose_page());
  std::string keys;
  for (const auto& [key, broke] : kBreakLooseKeys) keys += key;
  keys += "mgwk";
  sitting_.answered(screen::BenchPrompt::BreakLoose, keys, [&](const BenchAnswer& answer) {
    if (const auto* named = std::get_if<NamedWrench>(&answer)) {
      return sitting_.take_wrench(named->name);
    }
    const auto* key = std::get_if<Key>(&answer);
    if (key == nullptr) {
      throw failure::InputError("it is not out yet: first how it broke loose, Enter for normal");
    }
    if (ask_what_is_kept(sitting_, key->key, nullptr)) return;
    if (key->key == 'k') {
      sitting_.skip(position);
    } else if (key->key == 'm') {
      unmarked_ = marked ? position : 0;
    } else {
      take_removal(position, broke_by(key->key), marked);
    }
  });
}

void BreakLooseQuestion::take_removal(int position, record::BreakLoose broke, bool marked) {
  record::Removal removal;
  removal.joint = sitting_.walk()->joint();
  removal.positions = {position};
  removal.broke = broke;
  removal.marked = marked;
  removal.bag = sitting_.kept().bag;
  removal.note = sitting_.kept().note;
  sitting_.written(sitting_.record([&](auto& logbook, const auto& writer) {
    return act::record_removal(logbook, writer, removal);
  }));
  unmarked_ = 0;
  if (const auto why = finding::nothing_to_search(removal)) sitting_.session().remark(*why);
}

}  // namespace dialogue
