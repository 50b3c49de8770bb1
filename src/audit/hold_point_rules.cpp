#include <fmt/format.h>

#include <map>
#include <set>
#include <string>
#include <type_traits>
#include <utility>

#include "audit/flag.h"
#include "audit/rules.h"
#include "quantity/number_text.h"
#include "record/address.h"

namespace audit {
namespace {

// Tells in an id what was done before a hold point was put up from what was done behind it.
constexpr const char* kBefore = ":before";

// What was done to one joint while one hold point was shut.
struct Passed {
  const record::HoldPoint* point = nullptr;
  const record::Stamp* put_up = nullptr;  // where nothing tells whether it stood before that
  std::set<int> positions;
  const record::Stamp* first = nullptr;               // by the time done
  std::map<std::string, const record::Stamp*> lines;  // all of it, by id
  std::string shut;                                   // by what, when the first was done
};

// "closed in line 8 by LM", "put up in line 4 by KB".
std::string what_shut_it(const progress::HoldPointState& state) {
  const auto by = [](std::string_view what, const record::Stamp& stamp) {
    return fmt::format("{} in line {} by {}", what, stamp.line, stamp.by);
  };
  if (state.last_step == nullptr) return by("put up", *state.put_up);
  const bool is_closed = state.last_step->content.move == record::HoldPointMove::Closed;
  return by(is_closed ? "closed" : "begun and not passed", state.last_step->stamp);
}

// "line 6 (KB), line 9 (LM)": the first few of them.
std::string lines_text(const Passed& passed) {
  constexpr std::size_t kMostLines = 8;
  std::string text;
  std::size_t told = 0;
  for (const auto& [id, stamp] : passed.lines) {
    if (told++ == kMostLines) {
      return fmt::format("{} and {} more", text, passed.lines.size() - kMostLines);
    }
    text += fmt::format("{}line {} ({})", text.empty() ? "" : ", ", stamp->line, stamp->by);
  }
  return text;
}

// By folded code of the hold point, what was done before it apart.
using PassedOver = std::map<std::string, Passed>;

template <class Kind>
void look_at(const JointCase& at, PassedOver& passed_over) {
  for (const auto* entry : at.lines.of<Kind>()) {
    if constexpr (std::is_same_v<Kind, record::Tightening>) {
      if (record::is_skipped(entry->content)) continue;
    }
    const auto& stamp = entry->stamp;
    for (const auto& state :
         at.whole.lookups->hold_points.shut_before(at.joint.joint->code, stamp.done_at, stamp.id)) {
      auto& passed = passed_over[record::folded_code(state.point->code) +
                                 (state.is_yet_to_come ? kBefore : "")];
      passed.point = state.point;
      if (state.is_yet_to_come) passed.put_up = state.put_up;
      const auto& positions = record::positions_named(entry->content);
      passed.positions.insert(positions.begin(), positions.end());
      passed.lines.emplace(stamp.id, &stamp);
      if (passed.first == nullptr || record::is_earlier(stamp, *passed.first)) {
        passed.first = &stamp;
        passed.shut = what_shut_it(state);
      }
    }
  }
}

// Work dated before the hold point was put up, by a line that was written after it.
Deviation may_have_stood(const finding::JointState& joint, const Passed& passed,
                         const std::vector<int>& which) {
  const auto& point = *passed.point;
  return flag_part(
      kHoldPoint, Level::Hold, joint, point.code + kBefore,
      says("{} was worked on (line {}) before hold point {} ({}) was put up (line {}), but written "
           "after it: nothing tells whether it stood then",
           as::numbers(which), as::line(*passed.first), as::name(point.code), as::name(point.what),
           as::line(*passed.put_up)),
      fmt::format("enter the hold point again with the time from which it stood, such as this, and "
                  "have it passed: hold-point {} --what {} --at {} --replace {} --why \"its own "
                  "time\"",
                  point.code, quantity::quoted(point.what),
                  record::write_utc(passed.put_up->done_at), passed.put_up->line));
}

// Every deed on a fastener counts; a look at a stripe touches nothing.
void hold_point(const JointCase& at, Deviations& deviations) {
  if (at.whole.job.hold_points.empty()) return;
  PassedOver passed_over;
  look_at<record::Removal>(at, passed_over);
  look_at<record::Tightening>(at, passed_over);
  look_at<record::FinalStripe>(at, passed_over);
  look_at<record::Measured>(at, passed_over);
  look_at<record::Pull>(at, passed_over);
  for (const auto& [code, passed] : passed_over) {
    const auto& point = *passed.point;
    const std::vector<int> which(passed.positions.begin(), passed.positions.end());
    if (passed.put_up != nullptr) {
      deviations.push_back(may_have_stood(at.joint, passed, which));
      deviations.back().positions = which;
      continue;
    }
    auto told =
        says("{} was worked on behind hold point {} ({}), which was not passed at that time{}",
             as::numbers(which), as::name(point.code), as::name(point.what),
             as::wording(fmt::format(": {}; it was {}", lines_text(passed), passed.shut)));
    told.old_text =
        says(
            "{} was worked on behind hold point {} ({}), which was not passed at that time "
            "(line {})",
            as::numbers(which), as::name(point.code), as::name(point.what), as::line(*passed.first))
            .as_of_old();
    auto deviation = flag_part(
        kHoldPoint, Level::Hold, at.joint, point.code, std::move(told),
        "stop, make it safe and have it passed by a named person; if it had been, strike the line "
        "and enter it with its right time");
    deviation.positions = which;
    deviations.push_back(std::move(deviation));
  }
}

}  // namespace

constinit const Rule kHoldPoint{"hold point",
                                "work behind a hold point that was not passed at that time",
                                hold_point, kRestsOn<record::Removal, record::Tightening>};

}  // namespace audit
