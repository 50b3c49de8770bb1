#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <utility>

#include "audit/flag.h"
#include "audit/rules.h"
#include "audit/together.h"
#include "record/address.h"
#include "record/concerns.h"
#include "record/deviation_id.h"

namespace audit {
namespace {

// What was written on both sides while copies of the logbook were apart, by people who had not seen
// each other's lines (record/apart.h).

constexpr std::size_t kStruckTail = 8;

// A line as one side of a contradiction. Its id is the evidence: a third one is another matter.
Statement side(const record::Stamp& stamp) {
  return {fmt::format("line {} ({})", stamp.line, stamp.by), stamp.id + '|'};
}

template <class Kind>
using Entries = std::vector<const record::Entry<Kind>*>;

// The entries of one matter by its key; of lines that were never apart from others none.
template <class Kind, class Key>
std::map<std::string, Entries<Kind>> by_matter(const record::Job& job, const Key& key) {
  std::map<std::string, Entries<Kind>> matters;
  for (const auto& entry : record::entries_of<Kind>(job)) {
    if (job.apart.has(entry.stamp.id)) matters[key(entry.content)].push_back(&entry);
  }
  return matters;
}

// Those that differ from another one that was written apart from them; by `differ`.
template <class Kind, class Differ>
Entries<Kind> contradicting(const record::Job& job, const Entries<Kind>& entries,
                            const Differ& differ) {
  Entries<Kind> found;
  for (const auto* one : entries) {
    const bool is_one = std::ranges::any_of(entries, [&](const auto* other) {
      return one != other && job.apart.are_apart(one->stamp, other->stamp) &&
             differ(one->content, other->content);
    });
    if (is_one) found.push_back(one);
  }
  return found;
}

// Whether somebody who had seen all of them said it anew in a later line.
template <class Kind>
bool is_said_anew(const record::Job& job, const Entries<Kind>& sides, const Entries<Kind>& all) {
  return std::ranges::any_of(all, [&](const auto* later) {
    return std::ranges::all_of(sides, [&](const auto* side) {
      return later->stamp.id > side->stamp.id && !job.apart.are_apart(later->stamp, side->stamp);
    });
  });
}

template <class Kind, class Same>
Entries<Kind> all_alike(const record::Job& job, const Same& same) {
  Entries<Kind> all;
  for (const auto& entry : record::entries_of<Kind>(job)) {
    if (same(entry.content)) all.push_back(&entry);
  }
  return all;
}

// An id that is made of the rule and some words.
Deviation flag_matter(const Rule& rule, Level level, std::string_view matter, Statement says,
                      std::string what_to_do) {
  auto deviation = flag_job(rule, level, std::move(says), std::move(what_to_do));
  deviation.id = fmt::format("{}:{}", dashed(rule.name), dashed(matter));
  deviation.parts.front().id = deviation.id;
  return deviation;
}

// --- One code, two meanings

Statement meaning(const record::Joint& joint) {
  return as::wording(
      fmt::format("{} x {} {}, {}", joint.count, joint.size, joint.grade, joint.holds));
}
Statement meaning(const record::Wrench& wrench) {
  return as::wording(fmt::format("{}{}{}", record::scale_text(wrench),
                                 wrench.serial.empty() ? "" : ", serial ", wrench.serial));
}
Statement meaning(const record::HoldPoint& point) { return as::wording(point.what); }
Statement meaning(const record::CountedItem& item) {
  return as::wording(fmt::format("{} x {}", item.count, item.what));
}

// As they mean it, however it was typed.
record::Joint untyped(record::Joint joint) {
  joint.code = record::folded_code(joint.code);
  joint.length_typed.clear();
  joint.engaged_typed.clear();
  joint.face_typed.clear();
  return joint;
}
record::Wrench untyped(record::Wrench wrench) {
  wrench.name = record::folded_code(wrench.name);
  wrench.scale_typed.clear();
  wrench.graduation_typed.clear();
  wrench.accuracy_typed.clear();
  return wrench;
}
template <class Kind>
Kind untyped(Kind content) {
  content.code = record::folded_code(content.code);
  return content;
}

const std::string& code_of(const record::Wrench& wrench) { return wrench.name; }
template <class Kind>
const std::string& code_of(const Kind& content) {
  return content.code;
}

template <class Kind>
void two_meanings_of(const Case& subject, std::string_view what, std::string_view command,
                     Deviations& deviations) {
  const auto& job = subject.job;
  const auto folded = [](const Kind& content) { return record::folded_code(code_of(content)); };
  for (const auto& [code, entries] : by_matter<Kind>(job, folded)) {
    const auto sides = contradicting<Kind>(
        job, entries, [](const Kind& a, const Kind& b) { return !(untyped(a) == untyped(b)); });
    if (sides.empty()) continue;
    const auto all =
        all_alike<Kind>(job, [&, &key = code](const Kind& each) { return folded(each) == key; });
    if (is_said_anew<Kind>(job, sides, all)) continue;
    std::vector<Statement> meanings;
    for (const auto* each : sides) {
      meanings.push_back(says("{} in {}", meaning(each->content), side(each->stamp)));
    }
    const auto& name = code_of(sides.back()->content);
    auto deviation = flag_matter(
        kTwoMeanings, Level::Hold, fmt::format("{}:{}", what, name),
        says("{} {} was entered on both sides while copies of this logbook were apart, and not the "
             "same: {}; the latest counts",
             as::wording(what), as::name(name), joined(meanings, "; ")),
        fmt::format(
            "see what stands at the machine. One and the same: strike what is wrong, strike "
            "{1} --why ... or strike {2} --why ... Two of them: enter one under another "
            "code, {0} CODE ... --replace {2} --why ..., and the lines about it anew",
            command, sides.front()->stamp.line, sides.back()->stamp.line));
    if constexpr (std::is_same_v<Kind, record::Joint>) deviation.joint = name;
    deviations.push_back(std::move(deviation));
  }
}

void two_meanings(const Case& subject, Deviations& deviations) {
  if (subject.job.apart.is_empty()) return;
  two_meanings_of<record::Joint>(subject, "joint", "joint", deviations);
  two_meanings_of<record::Wrench>(subject, "wrench", "wrench", deviations);
  two_meanings_of<record::HoldPoint>(subject, "hold point", "hold-point", deviations);
  two_meanings_of<record::CountedItem>(subject, "item", "item", deviations);
}

// --- Two decisions on one matter

void decided_apart(const Case& subject, Deviations& deviations) {
  const auto& job = subject.job;
  if (job.apart.is_empty()) return;
  // By folded id of the matter, each decision that is about it.
  std::map<std::string, Entries<record::Disposition>> matters;
  std::map<std::string, std::string> ids;
  for (const auto& entry : job.dispositions) {
    const auto note = [&](const std::string& id) {
      auto folded = record::folded_deviation_id(id);
      ids.try_emplace(folded, id);
      matters[std::move(folded)].push_back(&entry);
    };
    if (entry.content.parts.empty()) note(entry.content.deviation);
    for (const auto& part : entry.content.parts) note(part.deviation);
  }
  for (const auto& [folded, entries] : matters) {
    const auto sides = contradicting<record::Disposition>(
        job, entries, [](const record::Disposition& a, const record::Disposition& b) {
          return a.decision != b.decision;
        });
    if (sides.empty() || is_said_anew<record::Disposition>(job, sides, entries)) continue;
    std::vector<Statement> decisions;
    for (const auto* each : sides) {
      decisions.push_back(
          says("{} in {}", as::name(record::word_of(each->content.decision)), side(each->stamp)));
    }
    const auto& id = ids.at(folded);
    auto deviation = flag_matter(
        kDecidedApart, Level::Hold, id,
        says("{} was decided on both sides while copies of this logbook were apart, and not the "
             "same: {}; the latest counts",
             as::name(id), joined(decisions, ", ")),
        fmt::format(
            "agree on one and strike the other: strike {} --why ..., or strike {} --why ...",
            sides.front()->stamp.line, sides.back()->stamp.line));
    deviation.joint = sides.back()->content.joint;
    deviations.push_back(std::move(deviation));
  }
}

// --- One deed, logged on both sides

template <class Kind>
bool always_differ(const Kind& /*a*/, const Kind& /*b*/) {
  return true;
}

template <class Kind>
std::vector<Statement> sides_of(const Entries<Kind>& entries) {
  std::vector<Statement> sides;
  for (const auto* each : entries) sides.push_back(side(each->stamp));
  return sides;
}

std::string matter_of(const record::FluidAmount& fluid) {
  return fmt::format("fluid:{}:{}", record::folded_code(fluid.fluid), record::word_of(fluid.move));
}
std::string matter_of(const record::ItemReturn& item) {
  return "item:" + record::folded_code(item.code);
}
std::string matter_of(const record::HoldPointStep& step) {
  return "hold point:" + record::folded_code(step.code);
}

Statement what_was_done(const record::FluidAmount& fluid) {
  return says("{} {}", as::name(fluid.fluid), as::wording(record::word_of(fluid.move)));
}
Statement what_was_done(const record::ItemReturn& item) {
  return says("a return of item {}", as::name(item.code));
}
Statement what_was_done(const record::HoldPointStep& step) {
  return says("a step of hold point {}", as::name(step.code));
}

template <class Kind>
void logged_apart_of(const Case& subject, Deviations& deviations) {
  const auto matter = [](const Kind& content) { return matter_of(content); };
  for (const auto& [key, entries] : by_matter<Kind>(subject.job, matter)) {
    const auto sides = contradicting<Kind>(subject.job, entries, always_differ<Kind>);
    if (sides.empty()) continue;
    deviations.push_back(flag_matter(
        kLoggedApart, Level::Check, key,
        says("{} was logged on both sides while copies of this logbook were apart: {}; all of it "
             "counts",
             what_was_done(sides.front()->content), joined(sides_of(sides), ", ")),
        "ask both who wrote it whether that was one deed or several; strike what is there twice, "
        "or "
        "settle it as it is"));
  }
}

void logged_apart(const Case& subject, Deviations& deviations) {
  if (subject.job.apart.is_empty()) return;
  logged_apart_of<record::FluidAmount>(subject, deviations);
  logged_apart_of<record::ItemReturn>(subject, deviations);
  logged_apart_of<record::HoldPointStep>(subject, deviations);
}

// --- One pass, tightened on both sides

bool is_same_work(const record::Tightening& a, const record::Tightening& b) {
  return a.target == b.target && a.target.kind != record::PassKind::Loosen;
}

void tightened_apart(const JointCase& at, const finding::PositionState& position,
                     Deviations& deviations) {
  const auto& job = at.whole.job;
  if (job.apart.is_empty() || at.work == nullptr) return;
  Entries<record::Tightening> done;
  for (const auto* entry : at.work->done_at(position.position)) {
    if (record::is_work(entry->content) && job.apart.has(entry->stamp.id)) done.push_back(entry);
  }
  const auto sides = contradicting<record::Tightening>(job, done, is_same_work);
  if (sides.empty()) return;
  const bool is_turned = std::ranges::any_of(sides, [](const auto* entry) {
    return entry->content.target.kind == record::PassKind::Angle;
  });
  deviations.push_back(flag_position(
      kTightenedApart, is_turned ? Level::Hold : Level::Check, at.joint, position.position,
      says(
          "the same pass was tightened on both sides while copies of this logbook were apart: {}{}",
          joined(sides_of(sides), ", "),
          as::wording(is_turned ? "; it may have been turned by its angle twice" : "")),
      is_turned
          ? "ask both: where it was turned once, strike the line that is there twice; where it "
            "was turned twice, renew it or hold its length and thread against a new one"
          : "ask both: where it was done once, strike the line that is there twice; done twice "
            "to the same torque it stays as it is: settle it"));
}

// --- Struck on one side, built upon on the other

// Whether a line of the second kind is written upon one of the first, or in its place.
template <class Struck, class Upon>
constexpr bool kIsBuiltUpon =
    std::is_same_v<Struck, Upon> ||
    (std::is_same_v<Struck, record::Removal> &&
     record::OneOf<Upon, record::Measured, record::Renewal, record::Tightening>) ||
    (std::is_same_v<Struck, record::Specified> && record::OneOf<Upon, record::Tightening>) ||
    (std::is_same_v<Struck, record::Tightening> &&
     record::OneOf<Upon, record::FinalStripe, record::Recheck>) ||
    (std::is_same_v<Struck, record::FinalStripe> && record::OneOf<Upon, record::Recheck>);

bool share_a_position(const std::vector<int>& a, const std::vector<int>& b) {
  return a.empty() || b.empty() ||
         std::ranges::any_of(a, [&](int each) { return std::ranges::find(b, each) != b.end(); });
}

// Of one line all that struck it, in copies that were apart.
using StrikesOf = std::vector<const record::Apart::Struck*>;

// Written in one go with a strike: what it put in place of the struck line.
bool is_put_in_place(const record::Stamp& line, const record::Stamp& strike) {
  return line.device == strike.device && line.entered_at == strike.entered_at &&
         line.id > strike.id;
}

template <class Struck>
void built_upon(const Case& subject, const StrikesOf& strikes, const Struck& content,
                Deviations& deviations) {
  const auto& struck = strikes.front()->stamp;
  const auto knows_not = [&](const record::Stamp& line) {
    return [&](const auto* each) { return subject.job.apart.are_apart(line, each->by); };
  };
  std::vector<const record::Stamp*> upon;
  bool is_closing = false;
  std::optional<std::string> put_at;  // where the first is that was put in its place
  const auto look_at = [&]<class Kind>(const record::Entry<Kind>& entry) {
    const auto& positions = record::positions_named(entry.content);
    const bool is_instead =
        std::is_same_v<Struck, Kind> && std::ranges::any_of(strikes, [&](const auto* each) {
          return is_put_in_place(entry.stamp, each->by);
        });
    const bool is_upon =
        is_instead ? std::ranges::any_of(strikes, knows_not(entry.stamp))
                   : record::same_code(entry.content.joint, content.joint) &&
                         entry.stamp.id > struck.id &&
                         share_a_position(positions, record::positions_named(content)) &&
                         std::ranges::all_of(strikes, knows_not(entry.stamp));
    if (!is_upon) return;
    upon.push_back(&entry.stamp);
    is_closing |= record::OneOf<Kind, record::Tightening, record::FinalStripe>;
    if (!is_instead) return;
    // One matter that was moved to two places counts at both.
    const auto at = record::folded_code(record::write_address(entry.content.joint, positions));
    is_closing |= put_at.value_or(at) != at;
    put_at = at;
  };
  record::Kinds::for_each([&]<class Kind>() {
    if constexpr (record::AboutFasteners<Kind>) {
      if constexpr (kIsBuiltUpon<Struck, Kind>) {
        for (const auto& entry : record::entries_of<Kind>(subject.job)) look_at(entry);
      }
    }
  });
  if (upon.empty()) return;
  std::ranges::sort(upon, {}, &record::Stamp::id);
  std::vector<Statement> sides;
  sides.reserve(upon.size());
  for (const auto* stamp : upon) sides.push_back(side(*stamp));
  std::vector<Statement> struck_in;
  for (const auto* each : strikes) struck_in.push_back(side(each->by));
  const auto& positions = record::positions_named(content);
  const auto address =
      positions.empty() ? content.joint : record::write_address(content.joint, positions);
  auto deviation = flag_matter(
      kStruckApart, is_closing ? Level::Hold : Level::Check,
      fmt::format("{}:{}", content.joint,
                  struck.id.substr(struck.id.size() - kStruckTail)),
      says("{}: {} was struck in {}, and on the other side, where that was not known, {} went on "
           "from it or stood in its place",
           as::name(address), side(struck), joined(struck_in, " and in "), joined(sides, ", ")),
      fmt::format("ask both what is right: strike what rests on the wrong one, or enter what line "
                  "{} said again; settle it where all is right as it stands",
                  struck.line));
  deviation.joint = content.joint;
  deviations.push_back(std::move(deviation));
}

// A joint, hold point or item that counts on though it was struck (record/kept_by_use.h).
template <class Kind>
void kept_by_use(const Case& subject, std::string_view what, std::string_view command,
                 Deviations& deviations) {
  for (const auto& entry : record::entries_of<Kind>(subject.job)) {
    const auto* kept = subject.job.apart.kept(entry.stamp.id);
    if (kept == nullptr) continue;
    const auto& code = entry.content.code;
    std::vector<Statement> struck_in;
    for (const auto& strike : kept->struck_by) struck_in.push_back(side(strike));
    std::vector<Statement> used_in;
    for (const auto& line : kept->used_in) used_in.push_back(side(line));
    constexpr bool kIsJoint = std::is_same_v<Kind, record::Joint>;
    auto deviation = flag_matter(
        kStruckApart, Level::Hold, kIsJoint ? code : fmt::format("{}:{}", what, code),
        says("{} {} was struck in {}, and on the other side, where that was not known, {} went on "
             "from it: it counts as {} has it until that is settled",
             as::wording(what), as::name(code), joined(struck_in, " and in "),
             joined(used_in, ", "), side(entry.stamp)),
        fmt::format("see what stands at the machine and ask both. It is there: enter it again as "
                    "it is, {} {} ...; or settle it as it stands. It is not: strike what was "
                    "entered for it (history {})",
                    command, code, code));
    if constexpr (kIsJoint) deviation.joint = code;
    deviations.push_back(std::move(deviation));
  }
}

void struck_apart(const Case& subject, Deviations& deviations) {
  const auto& all = subject.job.apart.struck();
  if (all.empty()) return;
  kept_by_use<record::Joint>(subject, "joint", "joint", deviations);
  kept_by_use<record::HoldPoint>(subject, "hold point", "hold-point", deviations);
  kept_by_use<record::CountedItem>(subject, "item", "item", deviations);
  for (auto struck = all.begin(); struck != all.end(); ++struck) {
    StrikesOf strikes;
    bool is_first = true;
    for (auto other = all.begin(); other != all.end(); ++other) {
      if (other->stamp.id != struck->stamp.id) continue;
      is_first = is_first && other >= struck;
      strikes.push_back(&*other);
    }
    if (!is_first) continue;  // told with the first of them
    std::visit(
        [&]<class Kind>(const Kind& content) {
          if constexpr (record::AboutFasteners<Kind>) {
            built_upon(subject, strikes, content, deviations);
          }
        },
        struck->content);
  }
}

}  // namespace

constinit const Rule kTwoMeanings{
    "two meanings",
    "one code of a joint, wrench, hold point or item entered in two copies, and not the same",
    two_meanings};
constinit const Rule kDecidedApart{
    "decided apart", "one matter decided in two copies, and not the same", decided_apart};
constinit const Rule kLoggedApart{
    "logged apart", "fluids, returns and hold points logged in two copies", logged_apart};
constinit const Rule kTightenedApart{"tightened apart", "one pass tightened in two copies",
                                     tightened_apart, kRestsOn<record::Tightening>, each_in_turn};
constinit const Rule kStruckApart{
    "struck apart", "lines struck in one copy and gone on from in another", struck_apart};

}  // namespace audit
