#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <string>
#include <type_traits>
#include <utility>

#include "audit/apart_matter.h"
#include "audit/flag.h"
#include "audit/rules.h"
#include "quantity/percent.h"
#include "record/address.h"
#include "record/alike_code.h"

namespace audit {
namespace {

// What an entry says of one option, as it is typed; empty where it says nothing of it.
struct Said {
  std::string_view option;
  std::string value;
};
using AllSaid = std::vector<Said>;

std::string if_set(bool is_set) { return is_set ? "yes" : ""; }

AllSaid said_of(const record::Joint& joint) {
  std::vector<std::string> rechecks;
  for (const auto& each : joint.rechecks) rechecks.push_back(record::write_exact(each));
  return {{"--holds", joint.holds},
          {"--size", joint.size},
          {"--length", joint.length ? record::length_text(joint) : ""},
          {"--grade", joint.grade},
          {"--count", std::to_string(joint.count)},
          {"--layout", record::write_exact(joint.layout)},
          {"--critical", if_set(joint.critical)},
          {"--one-time", if_set(joint.one_time)},
          {"--live-load", if_set(joint.live_load)},
          {"--into", joint.into},
          {"--engaged", joint.engaged ? record::engaged_text(joint) : ""},
          {"--seat", joint.seat},
          {"--face", joint.face ? record::face_text(joint) : ""},
          {"--after", fmt::format("{}", fmt::join(joint.after, ", "))},
          {"--covers", fmt::format("{}", fmt::join(joint.covers, ", "))},
          {"--bench", if_set(joint.bench)},
          {"--final-when", joint.final_when},
          {"--order", joint.order},
          {"--passes", joint.passes},
          {"--recheck", fmt::format("{}", fmt::join(rechecks, ", "))}};
}

AllSaid said_of(const record::Wrench& wrench) {
  return {{"--range", record::scale_text(wrench)},
          {"--graduation", record::graduation_text(wrench)},
          {"--kind", std::string(record::word_of(wrench.kind))},
          {"--accuracy", record::accuracy_text(wrench)},
          {"--serial", wrench.serial},
          {"--calibrated", wrench.calibrated ? record::write_day(*wrench.calibrated) : ""},
          {"--valid", fmt::format("{} months", wrench.valid_months)},
          {"--found-off", wrench.found_off ? quantity::write_exact(*wrench.found_off) : ""}};
}

AllSaid said_of(const record::HoldPoint& point) {
  return {{"--what", point.what},
          {"--wait", point.wait ? record::write_exact(*point.wait) : ""},
          {"--before", fmt::format("{}", fmt::join(point.joints, ", "))}};
}

AllSaid said_of(const record::CountedItem& item) {
  return {{"--what", item.what}, {"--before", item.before}};
}

// As they mean it, however it was typed.
record::Joint meant(record::Joint joint) {
  joint.code = record::folded_code(joint.code);
  joint.length_typed.clear();
  joint.engaged_typed.clear();
  joint.face_typed.clear();
  return joint;
}
record::Wrench meant(record::Wrench wrench) {
  wrench.name = record::folded_code(wrench.name);
  wrench.scale_typed.clear();
  wrench.graduation_typed.clear();
  wrench.accuracy_typed.clear();
  return wrench;
}
record::HoldPoint meant(record::HoldPoint point) {
  point.code = record::folded_code(point.code);
  return point;
}
// Of how many came off each line tells its own (kLoggedApart).
record::CountedItem meant(record::CountedItem item) {
  item.code = record::folded_code(item.code);
  item.count = 0;
  return item;
}

template <class Kind>
bool mean_the_same(const Kind& a, const Kind& b) {
  return meant(a) == meant(b);
}
// Two calibrations of one wrench are its history, and both are kept.
bool mean_the_same(const record::Wrench& a, const record::Wrench& b) {
  auto one = meant(a);
  auto other = meant(b);
  if (one.calibrated != other.calibrated) {
    for (auto* each : {&one, &other}) {
      each->calibrated.reset();
      each->found_off.reset();
      each->accuracy.reset();
      each->valid_months = 0;
    }
  }
  return one == other;
}

const std::string& code_of(const record::Wrench& wrench) { return wrench.name; }
template <class Kind>
const std::string& code_of(const Kind& content) {
  return content.code;
}

// "--count 6 in line 5 (KB), 8 in line 7 (LM); --critical in line 5 (KB), not in line 7 (LM)": what
// they do not say alike, and nothing else.
template <class Kind>
Statement what_differs(const Entries<Kind>& sides) {
  std::vector<AllSaid> all;
  for (const auto* each : sides) all.push_back(said_of(each->content));
  std::vector<Statement> told;
  for (std::size_t i = 0; i < all.front().size(); ++i) {
    const auto& first = all.front()[i];
    const bool is_alike =
        std::ranges::all_of(all, [&](const AllSaid& each) { return each[i].value == first.value; });
    if (is_alike) continue;
    std::vector<Statement> values;
    for (std::size_t j = 0; j < sides.size(); ++j) {
      const auto& value = all[j][i].value;
      values.push_back(
          says("{} in {}",
               value.empty() ? Statement{"not given", as::name("").figures} : as::name(value),
               side(sides[j]->stamp)));
    }
    told.push_back(says("{} {}", as::name(first.option), joined(values, ", ")));
  }
  return joined(told, "; ");
}

// Which of them holds while nobody has decided; the cautions of all of them do (finding/survey.h).
template <class Kind>
std::string what_counts(const Entries<Kind>& sides) {
  const auto line = sides.back()->stamp.line;
  if constexpr (std::is_same_v<Kind, record::Joint>) {
    return fmt::format(
        "until that is decided line {} counts, with every --critical, --one-time and --live-load",
        line);
  } else {
    return fmt::format("until that is decided line {} counts", line);
  }
}

template <class Kind>
std::string how_to_settle(const Entries<Kind>& sides, std::string_view command) {
  const auto first = sides.front()->stamp.line;
  const auto last = sides.back()->stamp.line;
  auto text = fmt::format(
      "see what stands at the machine. One and the same: strike what is wrong, strike {1} --why "
      "... or strike {2} --why ..., and put right what is left, {0} {3} ... --replace LINE; two of "
      "them: enter one under another code, {0} CODE ... --replace {2} --why ..., and the lines "
      "about it anew",
      command, first, last, code_of(sides.back()->content));
  if constexpr (std::is_same_v<Kind, record::Wrench>) {
    for (const auto* each : sides) {
      if (!each->content.found_off) continue;
      text += fmt::format(
          "; line {} alone tells that a calibration found it off: struck, nothing says any more "
          "that what it set before is in doubt",
          each->stamp.line);
    }
  }
  return text;
}

// The entries of one code that contradict each other; none where somebody who saw them all said it
// anew.
template <class Kind>
Entries<Kind> meanings_of_code(const record::Job& job, const Entries<Kind>& entries,
                               const std::string& folded) {
  const auto sides = contradicting<Kind>(
      job, entries, [](const Kind& a, const Kind& b) { return !mean_the_same(a, b); });
  if (sides.empty()) return sides;
  const auto all = all_alike<Kind>(
      job, [&](const Kind& each) { return record::folded_code(code_of(each)) == folded; });
  return is_said_anew<Kind>(job, sides, all) ? Entries<Kind>{} : sides;
}

template <class Kind>
void two_meanings_of(const Case& subject, std::string_view what, std::string_view command,
                     Deviations& deviations) {
  const auto& job = subject.job;
  const auto folded = [](const Kind& content) { return record::folded_code(code_of(content)); };
  for (const auto& [code, entries] : by_matter<Kind>(job, folded)) {
    const auto sides = meanings_of_code<Kind>(job, entries, code);
    if (sides.empty()) continue;
    const auto& name = code_of(sides.back()->content);
    auto deviation = flag_matter(
        kTwoMeanings, Level::Hold, fmt::format("{}:{}", what, name),
        says("{} {} was entered on both sides while copies of this logbook were apart, and not the "
             "same: {}; {}",
             as::wording(what), as::name(name), what_differs(sides),
             as::wording(what_counts(sides))),
        how_to_settle(sides, command));
    if constexpr (std::is_same_v<Kind, record::Joint>) deviation.joint = name;
    deviations.push_back(std::move(deviation));
  }
}

// Two codes that differ in noughts alone, "J9" and "J09", each entered by somebody who did not see
// the other: where one is known the other is refused, unless it is meant.
template <class Kind>
void alike_codes_of(const Case& subject, std::string_view what, Deviations& deviations) {
  const auto plain = [](const Kind& content) { return record::without_noughts(code_of(content)); };
  for (const auto& [code, entries] : by_matter<Kind>(subject.job, plain)) {
    const auto sides = contradicting<Kind>(subject.job, entries, [](const Kind& a, const Kind& b) {
      return !record::same_code(code_of(a), code_of(b));
    });
    if (sides.empty()) continue;
    std::vector<Statement> names;
    for (const auto* each : sides) {
      names.push_back(says("{} in {}", as::name(code_of(each->content)), side(each->stamp)));
    }
    const auto& last = *sides.back();
    auto deviation = flag_matter(
        kTwoMeanings, Level::Hold, fmt::format("{}:{}:alike", what, code_of(last.content)),
        says("{} were entered on both sides while copies of this logbook were apart, and their "
             "codes differ in noughts alone: nothing tells whether it is one {} or two",
             joined(names, ", "), as::wording(what)),
        fmt::format("see what stands at the machine. One and the same: strike line {}, and enter "
                    "the lines about it anew under the other code. Two: settle it as it is",
                    last.stamp.line));
    if constexpr (std::is_same_v<Kind, record::Joint>) deviation.joint = code_of(last.content);
    deviations.push_back(std::move(deviation));
  }
}

template <class Kind>
void meanings_of(const Case& subject, std::string_view what, std::string_view command,
                 Deviations& deviations) {
  two_meanings_of<Kind>(subject, what, command, deviations);
  alike_codes_of<Kind>(subject, what, deviations);
}

void two_meanings(const Case& subject, Deviations& deviations) {
  if (subject.job.apart.is_empty()) return;
  meanings_of<record::Joint>(subject, "joint", "joint", deviations);
  meanings_of<record::Wrench>(subject, "wrench", "wrench", deviations);
  meanings_of<record::HoldPoint>(subject, "hold point", "hold-point", deviations);
  meanings_of<record::CountedItem>(subject, "item", "item", deviations);
}

}  // namespace

bool has_two_meanings(const record::Job& job, std::string_view joint) {
  if (job.apart.is_empty()) return false;
  const auto code = record::folded_code(joint);
  const auto entries = all_alike<record::Joint>(
      job, [&](const record::Joint& each) { return record::folded_code(each.code) == code; });
  return !meanings_of_code<record::Joint>(job, entries, code).empty();
}

constinit const Rule kTwoMeanings{
    "two meanings",
    "one code of a joint, wrench, hold point or item entered in two copies, and not the same",
    two_meanings};

}  // namespace audit
