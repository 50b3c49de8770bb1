#include <fmt/format.h>

#include <map>
#include <set>
#include <type_traits>

#include "audit/flag.h"
#include "audit/rules.h"
#include "record/address.h"

namespace audit {
namespace {

// What was done to one joint while one other was on over it.
struct Under {
  progress::CoverOn cover;
  std::set<int> positions;
  const record::Stamp* first = nullptr;  // by the time done
};

using ByCover = std::map<const finding::JointState*, Under>;

// Of each fastener what was done since it last came out, that included: what came before is past.
template <class Kind>
void look_under(const JointCase& at, ByCover& under) {
  for (const auto* entry : at.lines.of<Kind>()) {
    if constexpr (std::is_same_v<Kind, record::Tightening>) {
      if (record::is_skipped(entry->content)) continue;
    }
    const auto on = at.whole.lookups->covers.over(at.joint.joint->code, entry->stamp);
    for (const auto& cover : on) {
      for (const int position : record::positions_named(entry->content)) {
        if (position > at.joint.joint->count) continue;
        const auto* removal = at.joint.at(position).removal;
        if (removal != nullptr && record::is_earlier(entry->stamp, removal->stamp)) continue;
        auto& of_cover = under[cover.cover];
        if (of_cover.first == nullptr || record::is_earlier(entry->stamp, *of_cover.first)) {
          of_cover.first = &entry->stamp;
          of_cover.cover = cover;
        }
        of_cover.positions.insert(position);
      }
    }
  }
}

// A machine comes in with its covers on: what came out under one of which something never did was
// reached all the same, so that one of the two is not as it is written.
void out_under_cover(const JointCase& at, Deviations& deviations) {
  const record::Stamp* first = nullptr;
  std::vector<int> out;
  for (const auto& position : at.joint.positions) {
    if (position.removal == nullptr) continue;
    out.push_back(position.position);
    const auto& stamp = position.removal->stamp;
    if (first == nullptr || record::is_earlier(stamp, *first)) first = &stamp;
  }
  if (first == nullptr) return;
  for (const auto* cover : at.whole.lookups->covers.never_off_over(at.joint.joint->code)) {
    std::vector<int> in;
    for (const auto& position : cover->positions) in.push_back(position.position);
    const auto& code = cover->joint->code;
    auto deviation = flag_part(
        kUnderCover, Level::Note, at.joint, code + ":in",
        says("{} came out (line {}), and {}, which covers it, never did", as::numbers(out),
             as::line(*first), as::name(code)),
        fmt::format("where it was off then, record that with its time: out {} --at ...; where it "
                    "does not cover {}, correct the joint",
                    record::write_address(code, in), at.joint.joint->code));
    deviation.positions = out;
    deviations.push_back(std::move(deviation));
  }
}

// A fastener that cannot be reached was not worked on: the cover was off and nobody wrote it down,
// or the line is of another joint. A look at a stripe touches nothing: looked_under_cover tells it.
void under_cover(const JointCase& at, Deviations& deviations) {
  out_under_cover(at, deviations);
  ByCover under;
  look_under<record::Removal>(at, under);
  look_under<record::Tightening>(at, under);
  look_under<record::FinalStripe>(at, under);
  look_under<record::Measured>(at, under);
  look_under<record::Pull>(at, under);
  std::map<std::string, const Under*> by_code;  // in an order that is the same every time
  for (const auto& [cover, found] : under) by_code[cover->joint->code] = &found;
  for (const auto& [cover, found] : by_code) {
    const std::vector<int> which(found->positions.begin(), found->positions.end());
    const auto& code = at.joint.joint->code;
    const auto& on = found->cover;
    auto deviation = flag_part(
        kUnderCover, Level::Hold, at.joint, cover,
        on.never_off
            ? says(
                  "{} was worked on (line {}), and line {} decided that {}, which covers it, never "
                  "came off",
                  as::numbers(which), as::line(*found->first), as::line(*on.closed),
                  as::name(cover))
            : says("{} was worked on (line {}) while {}, which covers it, was on (line {})",
                   as::numbers(which), as::line(*found->first), as::name(cover),
                   as::line(*on.closed)),
        on.never_off
            ? fmt::format("both cannot be: where {0} did come off, strike {1} --why ..., then "
                          "record it with its time: out {0}/1-{2} --at ...; where it did not, the "
                          "lines of {3} are wrong",
                          cover, on.closed->line, on.cover->joint->count, code)
            : fmt::format("if {0} was off then, record that with its time: out {0}/1-{1} --at ...; "
                          "else open {0}, "
                          "take {2} out, bring it to its final value and close {0} anew",
                          cover, on.cover->joint->count, record::write_address(code, which)));
    deviation.positions = which;
    deviations.push_back(std::move(deviation));
  }
}

// The last look at each position since it last came out. One that found it turned is a hold anyhow.
std::map<int, const record::Entry<record::Recheck>*> last_looks(const JointCase& at) {
  std::map<int, const record::Entry<record::Recheck>*> last;
  for (const auto* look : at.lines.of<record::Recheck>()) {
    for (const int position : look->content.positions) {
      if (position > at.joint.joint->count) continue;
      const auto* removal = at.joint.at(position).removal;
      if (removal != nullptr && record::is_earlier(look->stamp, removal->stamp)) continue;
      auto& known = last[position];
      if (known == nullptr || record::is_later(look->stamp, known->stamp)) known = look;
    }
  }
  std::erase_if(last, [](const auto& each) { return each.second->content.turned.has_value(); });
  return last;
}

// Of a stripe under a cover that is on nothing is seen but through an opening.
void looked_under_cover(const JointCase& at, Deviations& deviations) {
  struct Seen {
    progress::CoverOn cover;
    const record::Stamp* look = nullptr;  // of the first of them
    std::vector<int> positions;
  };
  std::map<std::string, Seen> by_code;
  for (const auto& [position, look] : last_looks(at)) {
    for (const auto& on : at.whole.lookups->covers.over(at.joint.joint->code, look->stamp)) {
      auto& seen = by_code[on.cover->joint->code];
      if (seen.look == nullptr) seen = {on, &look->stamp, {}};
      seen.positions.push_back(position);
    }
  }
  for (const auto& [cover, seen] : by_code) {
    auto deviation = flag_part(
        kLookedUnderCover, Level::Check, at.joint, cover,
        says("{} was looked at (line {}) while {}, which covers it, was on (line {})",
             as::numbers(seen.positions), as::line(*seen.look), as::name(cover),
             as::line(*seen.cover.closed)),
        fmt::format("if the stripes are seen through an opening, say so: settle "
                    "looked-under-cover:{0}:{1} --as use-as-is --why ...; if {1} was off, record "
                    "it as out and back in with their times; else strike the look: strike {2} "
                    "--why ...",
                    at.joint.joint->code, cover, seen.look->line));
    deviation.positions = seen.positions;
    deviations.push_back(std::move(deviation));
  }
}

}  // namespace

constinit const Rule kLookedUnderCover{"looked under cover",
                                       "looks at stripes under a cover that was on",
                                       looked_under_cover, kRestsOn<record::Recheck>};
constinit const Rule kUnderCover{
    "under cover", "work on a joint while the one that covers it was on", under_cover,
    kRestsOn<record::Removal, record::Measured, record::Tightening, record::FinalStripe>};

}  // namespace audit
