#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <utility>

#include "audit/apart_matter.h"
#include "audit/flag.h"
#include "audit/rules.h"
#include "audit/together.h"
#include "record/address.h"
#include "record/concerns.h"
#include "record/deviation_id.h"

namespace audit {
namespace {

constexpr std::size_t kStruckTail = 8;

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

// "6 in line 9 (LM)"; of a step of a hold point what it was.
Statement how_much(const record::FluidAmount& fluid) { return as::wording(fluid.typed); }
Statement how_much(const record::CountedItem& item) { return as::count(item.count); }
Statement how_much(const record::ItemReturn& item) { return as::count(item.count); }
Statement how_much(const record::HoldPointStep& step) {
  return as::name(record::word_of(step.move));
}
Statement how_much(const record::Tightening& work) {
  const auto pass = fmt::format("pass {}", work.pass);
  if (work.turned) return says("{} turned {}", as::wording(pass), as::angle(*work.turned));
  if (work.setting) {
    return says("{} at {}", as::wording(pass), as::torque({*work.setting, work.unit}));
  }
  return says("{} ({})", as::wording(pass), as::name(record::word_of(work.target.kind)));
}

template <class Kind>
std::vector<Statement> sides_of(const Entries<Kind>& entries) {
  std::vector<Statement> sides;
  for (const auto* each : entries) {
    sides.push_back(says("{} in {}", how_much(each->content), side(each->stamp)));
  }
  return sides;
}

std::string matter_of(const record::FluidAmount& fluid) {
  return fmt::format("fluid:{}:{}", record::folded_code(fluid.fluid), record::word_of(fluid.move));
}
std::string matter_of(const record::CountedItem& item) {
  return fmt::format("item:{}:off", record::folded_code(item.code));
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
Statement what_was_done(const record::CountedItem& item) {
  return says("item {} as taken off", as::name(item.code));
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
  logged_apart_of<record::CountedItem>(subject, deviations);
  logged_apart_of<record::ItemReturn>(subject, deviations);
  logged_apart_of<record::HoldPointStep>(subject, deviations);
}

// --- One pass, tightened on both sides

// A pass of one number that each was asked another torque for is one that both did as well.
bool is_same_work(const record::Tightening& a, const record::Tightening& b) {
  if (a.target.kind != b.target.kind || a.target.kind == record::PassKind::Loosen) return false;
  return a.target == b.target || a.pass == b.pass;
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

// --- Striped, looked at or renewed on both sides

// The lines of this kind at a position, in the order of time.
template <class Kind>
Entries<Kind> entries_at(const JointCase& at, int position) {
  Entries<Kind> entries;
  for (const auto* entry : at.lines.of<Kind>()) {
    if (std::ranges::find(entry->content.positions, position) != entry->content.positions.end()) {
      entries.push_back(entry);
    }
  }
  std::ranges::sort(
      entries, [](const auto* a, const auto* b) { return record::is_earlier(a->stamp, b->stamp); });
  return entries;
}

template <class Kind>
bool is_any_between(const Entries<Kind>& entries, const record::Stamp& earlier,
                    const record::Stamp& later) {
  return std::ranges::any_of(entries, [&](const auto* entry) {
    return record::is_earlier(earlier, entry->stamp) && record::is_earlier(entry->stamp, later);
  });
}

// What was tightened or slackened at a position, in the order of time.
Entries<record::Tightening> work_at(const JointCase& at, int position) {
  auto work = entries_at<record::Tightening>(at, position);
  std::erase_if(work, [](const auto* entry) { return !record::is_work(entry->content); });
  return work;
}

// Those that were written apart from another one of the same fastener as it was left, and say what
// cannot be true of it with that: `contradict` takes the earlier one first.
template <class Kind, class Contradict>
Entries<Kind> contradicting_in_time(const JointCase& at, int position, const Entries<Kind>& all,
                                    const Contradict& contradict) {
  const auto& apart = at.whole.job.apart;
  const auto work = work_at(at, position);
  const auto outs = entries_at<record::Removal>(at, position);
  const auto stripes = entries_at<record::FinalStripe>(at, position);
  Entries<Kind> sides;
  const auto add = [&](const record::Entry<Kind>* entry) {
    if (std::ranges::find(sides, entry) == sides.end()) sides.push_back(entry);
  };
  for (std::size_t i = 0; i < all.size(); ++i) {
    for (std::size_t j = i + 1; j < all.size(); ++j) {
      const auto& earlier = all[i]->stamp;
      const auto& later = all[j]->stamp;
      if (!apart.are_apart(earlier, later) || is_any_between(work, earlier, later) ||
          is_any_between(outs, earlier, later) || is_any_between(stripes, earlier, later) ||
          !contradict(all[i]->content, all[j]->content)) {
        continue;
      }
      add(all[i]);
      add(all[j]);
    }
  }
  return sides;
}

void striped_apart(const JointCase& at, const finding::PositionState& position,
                   Deviations& deviations) {
  if (at.whole.job.apart.is_empty()) return;
  const auto stripes = entries_at<record::FinalStripe>(at, position.position);
  const auto sides = contradicting_in_time<record::FinalStripe>(
      at, position.position, stripes,
      [](const record::FinalStripe& a, const record::FinalStripe& b) {
        return a.teardown_mark_wiped != b.teardown_mark_wiped || a.counter != b.counter;
      });
  if (sides.empty() || is_said_anew<record::FinalStripe>(at.whole.job, sides, stripes)) return;
  std::vector<Statement> drawn;
  for (const auto* each : sides) {
    drawn.push_back(says(
        "{}{} in {}",
        as::wording(each->content.teardown_mark_wiped ? "teardown mark wiped"
                                                      : "teardown mark not wiped"),
        as::wording(each->content.counter ? " at " + record::write_exact(*each->content.counter)
                                          : ""),
        side(each->stamp)));
  }
  deviations.push_back(flag_position(
      kStripedApart, Level::Check, at.joint, position.position,
      says("its final stripe was recorded on both sides while copies of this logbook were apart, "
           "and not the same: {}; the latest counts",
           joined(drawn, ", ")),
      "see what stands on it, and strike the line that is wrong"));
}

// How far the stripe stood from being in line.
double turned_degrees(const record::Recheck& look) {
  return look.turned ? look.turned->in_degrees() : 0.0;
}

void looked_apart(const JointCase& at, const finding::PositionState& position,
                  Deviations& deviations) {
  const auto& job = at.whole.job;
  if (job.apart.is_empty()) return;
  const auto looks = entries_at<record::Recheck>(at, position.position);
  // One that turns further contradicts nothing; none turns back by itself.
  const auto sides = contradicting_in_time<record::Recheck>(
      at, position.position, looks,
      [](const record::Recheck& earlier, const record::Recheck& later) {
        return turned_degrees(earlier) > turned_degrees(later);
      });
  if (sides.empty() || is_said_anew<record::Recheck>(job, sides, looks)) return;
  const auto stripes = entries_at<record::FinalStripe>(at, position.position);
  const bool is_striped_anew = std::ranges::any_of(stripes, [&](const auto* stripe) {
    return std::ranges::all_of(
        sides, [&](const auto* each) { return record::is_later(stripe->stamp, each->stamp); });
  });
  if (is_striped_anew) return;
  std::vector<Statement> seen;
  for (const auto* each : sides) {
    seen.push_back(each->content.turned ? says("turned by {} in {}",
                                               as::angle(*each->content.turned), side(each->stamp))
                                        : says("aligned in {}", side(each->stamp)));
  }
  deviations.push_back(flag_position(
      kLookedApart, Level::Check, at.joint, position.position,
      says("its final stripe was looked at on both sides while copies of this logbook were apart, "
           "and no stripe turns back: {}",
           joined(seen, ", ")),
      "look at it once more, and strike the line that is wrong"));
}

void arrived_apart(const JointCase& at, const finding::PositionState& position,
                   Deviations& deviations) {
  const auto& apart = at.whole.job.apart;
  if (apart.is_empty()) return;
  const auto arrivals = entries_at<record::Renewal>(at, position.position);
  if (arrivals.size() < 2) return;
  const auto work = work_at(at, position.position);
  for (std::size_t i = 0; i + 1 < arrivals.size(); ++i) {
    for (std::size_t j = i + 1; j < arrivals.size(); ++j) {
      const auto& first = arrivals[i]->stamp;
      const auto& second = arrivals[j]->stamp;
      if (!apart.are_apart(first, second)) continue;
      // Before it was put in the two say the same.
      const auto fitted = std::ranges::find_if(work, [&](const auto* entry) {
        return entry->content.target.kind != record::PassKind::Loosen &&
               record::is_earlier(first, entry->stamp) &&
               record::is_earlier(entry->stamp, second) && apart.are_apart(entry->stamp, second);
      });
      if (fitted == work.end()) continue;
      deviations.push_back(flag_position(
          kArrivedApart, Level::Check, at.joint, position.position,
          says(
              "the new one that had arrived by {} was tightened by {}, and on the other side, "
              "where that was not known, one was recorded as arrived after that by {}; so one more "
              "counts as lying ready",
              side(first), side((*fitted)->stamp), side(second)),
          fmt::format("see whether one lies there: where it is the same one, strike {} --why ...; "
                      "where there are two, settle it",
                      second.line)));
      return;
    }
  }
}

// --- Struck on one side, built upon on the other

// Whether a line of the second kind is written upon one of the first, or in its place. Nothing
// rests on a photograph: the same picture may be struck here and another of the place be taken
// there.
template <class Struck, class Upon>
constexpr bool kIsBuiltUpon =
    (std::is_same_v<Struck, Upon> && !std::is_same_v<Struck, record::Photograph>) ||
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
    const bool is_upon = is_instead
                             ? std::ranges::any_of(strikes, knows_not(entry.stamp))
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
      fmt::format("{}:{}", content.joint, struck.id.substr(struck.id.size() - kStruckTail)),
      says("{}: {} was struck in {}, and on the other side, where that was not known, {} went on "
           "from it or stood in its place",
           as::name(address), side(struck), joined(struck_in, " and in "), joined(sides, ", ")),
      fmt::format("ask both what is right: strike what rests on the wrong one, or enter what line "
                  "{} said again; settle it where all is right as it stands",
                  struck.line));
  deviation.joint = content.joint;
  deviations.push_back(std::move(deviation));
}

bool is_another_bolt(const record::Joint& a, const record::Joint& b) {
  return a.size != b.size || record::length_text(a) != record::length_text(b) ||
         a.grade != b.grade || a.count != b.count || a.one_time != b.one_time ||
         a.critical != b.critical || a.live_load != b.live_load;
}

// A joint that was struck and is entered as another one now, while it was worked on as it was.
void worked_on_as_it_was(const Case& subject, const StrikesOf& strikes, const record::Joint& was,
                         Deviations& deviations) {
  const auto& struck = strikes.front()->stamp;
  const auto* now = record::joint_in(subject.job, was.code);
  if (now == nullptr || subject.job.apart.kept(struck.id) != nullptr ||
      !is_another_bolt(*now, was)) {
    return;
  }
  std::vector<const record::Stamp*> upon;
  const auto look_at = [&](const auto& entry) {
    const bool is_upon = record::same_code(entry.content.joint, was.code) &&
                         std::ranges::all_of(strikes, [&](const auto* each) {
                           return subject.job.apart.are_apart(entry.stamp, each->by);
                         });
    if (is_upon) upon.push_back(&entry.stamp);
  };
  for (const auto& entry : subject.job.removals) look_at(entry);
  for (const auto& entry : subject.job.findings) look_at(entry);
  for (const auto& entry : subject.job.tightenings) look_at(entry);
  if (upon.empty()) return;
  std::ranges::sort(upon, {}, &record::Stamp::id);
  std::vector<Statement> sides;
  for (const auto* stamp : upon) sides.push_back(side(*stamp));
  std::vector<Statement> struck_in;
  for (const auto* each : strikes) struck_in.push_back(side(each->by));
  auto deviation = flag_matter(
      kStruckApart, Level::Check,
      fmt::format("{}:{}", was.code, struck.id.substr(struck.id.size() - kStruckTail)),
      says("joint {} as {} had it was struck in {}, and on the other side, where that was not "
           "known, {} took it for what it had been",
           as::name(was.code), side(struck), joined(struck_in, " and in "), joined(sides, ", ")),
      fmt::format(
          "look what was changed (history {}); what was done for another bolt is done over, "
          "and settled where it is right as it stands",
          was.code));
  deviation.joint = was.code;
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
        fmt::format(
            "see what stands at the machine and ask both. It is there: enter it again, {0} {1} "
            "..., or settle it as it stands. It is not: strike what was entered for it (history "
            "{1})",
            command, code));
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
          } else if constexpr (std::is_same_v<Kind, record::Joint>) {
            worked_on_as_it_was(subject, strikes, content, deviations);
          }
        },
        struck->content);
  }
}

}  // namespace

constinit const Rule kDecidedApart{
    "decided apart", "one matter decided in two copies, and not the same", decided_apart};
constinit const Rule kLoggedApart{
    "logged apart", "fluids, returns and hold points logged in two copies", logged_apart};
constinit const Rule kTightenedApart{"tightened apart", "one pass tightened in two copies",
                                     tightened_apart, kRestsOn<record::Tightening>, each_in_turn};
constinit const Rule kStripedApart{"striped apart",
                                   "one final stripe recorded in two copies, and not the same",
                                   striped_apart, kRestsOn<record::FinalStripe>, each_in_turn};
constinit const Rule kLookedApart{
    "looked apart", "one final stripe looked at in two copies, and found turned back", looked_apart,
    kRestsOn<record::FinalStripe, record::Recheck>, each_in_turn};
constinit const Rule kArrivedApart{
    "arrived apart",
    "a new fastener fitted in one copy and recorded as arrived after that in another",
    arrived_apart, kRestsOn<record::Renewal, record::Tightening>, each_in_turn};
constinit const Rule kStruckApart{
    "struck apart", "lines struck in one copy and gone on from in another", struck_apart};

}  // namespace audit
