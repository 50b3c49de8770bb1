#include "cli/logbook_words.h"

#include <fmt/format.h>

#include <algorithm>

#include "audit/audit.h"
#include "fastener/condition.h"
#include "manual/looked_for.h"
#include "progress/fluid_balance.h"
#include "progress/hold_point_state.h"
#include "progress/item_count.h"
#include "quantity/number_text.h"
#include "quantity/torque_unit.h"
#include "record/address.h"
#include "record/disposition.h"
#include "record/measured.h"
#include "record/pass_rule.h"
#include "record/removal.h"
#include "record/wrench.h"
#include "tables/csv_table.h"
#include "terminal/session.h"
#include "words/joint_heading.h"

namespace cli {
namespace {

using Words = std::vector<MayBeTyped>;

// Up to so many lines a whole logbook is audited within a few hundredths of a second.
constexpr std::int64_t kMostLinesToAudit = 1500;

template <class Value>
Words words_of_kind() {
  Words words;
  for (const auto& word : record::Vocabulary<Value>::kWords) {
    words.push_back({std::string(word.text)});
  }
  return words;
}

// ---- what the logbook tells

Words joint_codes(const terminal::Session& session) {
  Words words;
  const auto logbook = session.open_to_read();
  for (const auto& code : logbook.joint_codes()) words.push_back({code});
  return words;
}

Words wrenches(const terminal::Session& session) {
  Words words;
  const auto job = session.open_to_read().job_of_none();
  for (const auto& entry : job.wrenches) {
    words.push_back({entry.content.name, record::scale_text(entry.content)});
  }
  return words;
}

Words fluids(const terminal::Session& session) {
  Words words;
  const auto balances = progress::fluid_balances(session.open_to_read().job_of_none());
  for (const auto& name : progress::fluid_names(balances)) words.push_back({name});
  return words;
}

Words items(const terminal::Session& session) {
  Words words;
  const auto job = session.open_to_read().job_of_none();
  for (const auto& count : progress::item_counts(job)) {
    words.push_back({count.item->code, count.item->what});
  }
  return words;
}

Words hold_points(const terminal::Session& session) {
  Words words;
  const auto job = session.open_to_read().job_of_none();
  for (const auto& entry : job.hold_points) {
    words.push_back({entry.content.code, entry.content.what});
  }
  return words;
}

// Those that are open, each by the id that audit shows.
Words deviations(const terminal::Session& session) {
  const auto logbook = session.open_to_read();
  if (logbook.last_line() > kMostLinesToAudit) return {};
  const auto job = logbook.job();
  const auto survey = finding::survey(job);
  Words words;
  for (const auto& deviation : audit::run({job, survey, session.done_at()}).deviations) {
    if (deviation.settled == nullptr) words.push_back({deviation.id, deviation.says});
  }
  return words;
}

// Whether `command` has still to do with the position.
bool is_wanted(const finding::PositionState& position, std::string_view command) {
  if (command == "out") return position.removal == nullptr;
  if (command == "found") return position.finding() == nullptr;
  return true;
}

// "J06/1,4" and what may stand behind its last comma or hyphen.
Words positions(const Argument& argument, std::string_view begun,
                const terminal::Session& session) {
  const auto slash = begun.find('/');
  const auto last_mark = begun.find_last_of("/,-");
  const std::string kept(begun.substr(0, last_mark + 1));
  const auto job = session.open_to_read().job_of(begun.substr(0, slash));
  const auto survey = finding::survey(job);
  const auto* joint = finding::joint_in(survey, begun.substr(0, slash));
  if (joint == nullptr) return {};
  // A range ends behind where it begins.
  int above = 0;
  if (begun[last_mark] == '-') {
    const auto before = begun.substr(0, last_mark);
    const auto first = before.substr(before.find_last_of("/,") + 1);
    above = quantity::read_count(first, joint->joint->count);
  }
  Words words;
  for (const auto& position : joint->positions) {
    if (position.position > above && is_wanted(position, argument.command)) {
      words.push_back({kept + std::to_string(position.position)});
    }
  }
  return words;
}

// A joint, or a position of it where that is asked for.
Words addresses(const Argument& argument, std::string_view begun,
                const terminal::Session& session) {
  if (begun.find('/') != std::string_view::npos) return positions(argument, begun, session);
  auto words = joint_codes(session);
  if (argument.value.find("POSITION") == std::string_view::npos) return words;
  const auto codes = words.size();
  for (std::size_t i = 0; i < codes; ++i) words.push_back({words[i].word + '/'});
  return words;
}

// ---- closed lists

Words pass_rules(const terminal::Session&) {
  Words words;
  for (const auto& rule : record::pass_rules()) {
    words.push_back({std::string(rule.name), std::string(rule.use)});
  }
  return words;
}

Words conditions(const terminal::Session&) {
  Words words;
  for (const auto condition : fastener::kConditions) {
    words.push_back({std::string(fastener::name_of(condition))});
  }
  return words;
}

Words units(const terminal::Session&) {
  Words words;
  for (const auto unit : quantity::kTorqueUnits) {
    words.push_back({std::string(quantity::name_of(unit))});
  }
  return words;
}

Words table_names(const terminal::Session&) {
  Words words;
  for (const auto* table : tables::all_tables()) words.push_back({std::string(table->name)});
  return words;
}

Words topics(const terminal::Session&) {
  Words words;
  for (const auto& page : manual::pages()) {
    words.push_back({std::string(page.name), std::string(manual::title_of(page))});
  }
  return words;
}

// What else a page is looked for under.
Words looked_for() {
  Words words;
  for (const auto& page : manual::pages()) {
    for (auto& word : manual::looked_for_as(page)) {
      words.push_back({std::move(word), fmt::format("on the page {}", page.name)});
    }
  }
  return words;
}

template <class Value>
Words vocabulary(const terminal::Session&) {
  return words_of_kind<Value>();
}

// What an option takes, wherever it is declared; and what a positional argument takes that is named
// alike in several commands.
struct Known {
  std::string_view command;  // empty for every one
  std::string_view option;
  Words (*words)(const terminal::Session& session);
};

constexpr std::string_view kTopic = "TOPIC";
constexpr Known kKnown[] = {
    {"", "--wrench", wrenches},
    {"wrench", "NAME", wrenches},
    {"joint", "CODE", joint_codes},
    {"fluid", "NAME", fluids},
    {"item", "CODE", items},
    {"hold-point", "CODE", hold_points},
    {"settle", "ID", deviations},
    {"settle", "--as", vocabulary<record::Decision>},
    {"", "--passes", pass_rules},
    {"", "--condition", conditions},
    {"", "--broke", vocabulary<record::BreakLoose>},
    {"", "--restart", vocabulary<record::Restart>},
    {"", "--neighbours", vocabulary<record::Neighbours>},
    {"", "--kind", vocabulary<record::WrenchKind>},
    {"", "--unit", units},
    {"convert", "--to", units},
    {"export", "TABLE", table_names},
    {"import", "--as", table_names},
    {"help", kTopic, topics},
};

// Values that stand for joints, or for positions of them.
bool is_address(std::string_view value) {
  return value.starts_with("JOINT") || value.starts_with("CODE ...");
}

Words all_words_for(const Argument& argument, std::string_view begun,
                    const terminal::Session& session) {
  for (const auto& known : kKnown) {
    if (known.option == argument.option &&
        (known.command.empty() || known.command == argument.command)) {
      return known.words(session);
    }
  }
  return is_address(argument.value) ? addresses(argument, begun, session) : Words();
}

Words that_begin(Words words, std::string_view begun) {
  std::erase_if(words, [&](const MayBeTyped& each) { return !each.word.starts_with(begun); });
  return words;
}

}  // namespace

std::vector<MayBeTyped> words_for(const Argument& argument, std::string_view begun,
                                  const terminal::Session& session) {
  auto words = that_begin(all_words_for(argument, begun, session), begun);
  // Five times as many as there are pages: where none is called so.
  if (words.empty() && argument.option == kTopic) words = that_begin(looked_for(), begun);
  return words;
}

}  // namespace cli
