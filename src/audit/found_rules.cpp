#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "audit/flag.h"
#include "audit/rules.h"
#include "audit/together.h"
#include "finding/in_line.h"
#include "finding/not_to_be_tested.h"
#include "finding/outlier.h"
#include "finding/unit_slip.h"
#include "quantity/number_text.h"
#include "record/address.h"

namespace audit {
namespace {

using finding::Finding;
using finding::PositionState;
using finding::Verdict;

const Finding* finding_with(const PositionState& position, Verdict verdict) {
  const auto* finding = position.finding();
  return finding != nullptr && finding->verdict == verdict ? finding : nullptr;
}

Statement running_torque(const Finding& finding) {
  const auto& prevailing = finding.entry->content.prevailing;
  return prevailing ? says(", running torque {} included", as::torque(*prevailing)) : Statement{};
}

Statement against(const JointCase& at, const Finding& finding) {
  return says("found {} (grade {}), specified {}{}", as::found(finding.torque, at.unit()),
              as::name(std::string(1, finding::letter_of(finding.graded.grade))),
              as::window(*finding.window, at.unit()), running_torque(finding));
}

// The positions whose findings have this verdict and lie by one ratio: all but those too far from
// the median of all.
std::vector<int> off_by_one_ratio(const JointCase& at, Verdict verdict) {
  std::vector<double> ratios;
  for (const auto& position : at.joint.positions) {
    const auto* finding = finding_with(position, verdict);
    if (finding != nullptr && finding->ratio) ratios.push_back(*finding->ratio);
  }
  std::vector<int> alike;
  if (ratios.empty()) return alike;
  const double median = finding::median(ratios);
  for (const auto& position : at.joint.positions) {
    const auto* finding = finding_with(position, verdict);
    if (finding != nullptr && finding->ratio &&
        std::fabs(*finding->ratio / median - 1.0) <= kAlike) {
      alike.push_back(position.position);
    }
  }
  return alike;
}

// A hold where what the fastener was tightened to is out as well, a check where only what turns it
// today is.
void flag_outside(const JointCase& at, Verdict verdict, const Rule& rule,
                  const std::string& what_to_do, Deviations& deviations) {
  const auto alike = off_by_one_ratio(at, verdict);
  for (const auto& position : at.joint.positions) {
    const auto* finding = finding_with(position, verdict);
    if (finding == nullptr) continue;
    const bool both = finding::is_outside_both(*finding);
    auto deviation = flag_position(
        rule, both ? Level::Hold : Level::Check, at.joint, position.position,
        says("{}{}", against(at, *finding),
             as::wording(both ? ""
                              : "; it may have been tightened as specified, by the method's own "
                                "range")),
        what_to_do);
    if (!std::ranges::binary_search(alike, position.position)) {
      deviation = apart(std::move(deviation));
    } else if (!both) {
      deviation = of_kind(std::move(deviation), "today");
    }
    deviations.push_back(std::move(deviation));
  }
}

void found_low(const JointCase& at, Deviations& deviations) {
  flag_outside(at, Verdict::Low, kFoundLow,
               fmt::format("look for {}settled faces or a fastener that turned; check thread and "
                           "seat, then tighten to the specification",
                           speaks_of_gasket(*at.joint.joint) ? "a relaxed gasket, " : ""),
               deviations);
}

void found_high(const JointCase& at, Deviations& deviations) {
  flag_outside(at, Verdict::High, kFoundHigh,
               "it may be overtightened or stuck: check its length and thread against a new one, "
               "and renew it where in doubt",
               deviations);
}

void found_undecided(const JointCase& at, const PositionState& position, Deviations& deviations) {
  const auto* finding = finding_with(position, Verdict::Undecided);
  if (finding == nullptr) return;
  const bool in_line = finding::in_line_at_specification(finding->entry->content, *finding->window);
  constexpr const char* kWhatSettlesIt =
      "says what would settle it, smaller steps, on until the mark is past, or a better wrench; "
      "else treat it as not known";
  const auto where = record::write_address(at.joint.joint->code, position.position);
  const bool no_test = !finding::not_to_be_tested(at.joint, position.position).empty();
  auto deviation = flag_position(
      kFoundUndecided, Level::Check, at.joint, position.position,
      says("{}{}", against(at, *finding),
           as::wording(in_line ? "; in line at the specification, which is all it says"
                               : "; the uncertainty straddles a limit")),
      no_test ? std::string("it must not be tested again: treat it as not known")
              : fmt::format("\"boltwitness show {}\" {}", where, kWhatSettlesIt));
  if (!no_test) {
    deviation.what_to_do_at =
        fmt::format("look at {{}} one by one: \"boltwitness show {}\" {}", where, kWhatSettlesIt);
  }
  deviations.push_back(in_line ? of_kind(std::move(deviation), "in-line") : std::move(deviation));
}

// "1-4: found 50 to 54 N·m, 0.62 to 0.68 of the specification": of those with one number each.
std::string found_together(const Case& subject, const Deviation& together) {
  const auto& joint = *subject.lookups->joints.find(together.joint);
  const auto unit = joint.unit;
  std::vector<quantity::Torque> torques;
  std::vector<double> ratios;
  for (const int position : together.positions) {
    const auto& finding = *joint.at(position).finding();
    if (finding.torque.best) torques.push_back(*finding.torque.best);
    if (finding.ratio) ratios.push_back(*finding.ratio);
  }
  if (torques.size() != together.positions.size() || ratios.size() != torques.size()) {
    return each_in_turn(subject, together);
  }
  const auto [least, most] = std::ranges::minmax(torques);
  const auto [low, high] = std::ranges::minmax(ratios);
  const auto range =
      least == most
          ? quantity::write_rounded(most, unit)
          : fmt::format("{} to {}", quantity::write_rounded(quantity::in_unit(least, unit)),
                        quantity::write_rounded(most, unit));
  const auto from = fmt::format("{:.2f}", low);
  const auto to = fmt::format("{:.2f}", high);
  return fmt::format("{}: found {}, {} of the specification",
                     record::write_positions(together.positions), range,
                     from == to ? to : fmt::format("{} to {}", from, to));
}

std::string undecided_together(const Case& subject, const Deviation& together) {
  const auto text = found_together(subject, together);
  return text + (text.ends_with("specification") ? "; the uncertainty straddles a limit" : "");
}

struct Incomparable {
  std::string_view kind;
  Statement says;
};

Incomparable why_not_comparable(const PositionState& position, const Finding& finding) {
  if (finding.graded.grade == finding::Grade::X) {
    return {"no-evidence",
            says("the finding is no evidence: {}", as::wording(finding.graded.rules.front()->why))};
  }
  if (!position.window) {
    return {"no-torque", as::wording("the specification does not end in a torque")};
  }
  return {"threadlocker", as::wording("threadlocker holds the fastener besides its preload")};
}

// The line that says how it broke loose, where several record it.
const record::Stamp& told_in(const PositionState& position,
                             const record::Entry<record::Removal>& removal) {
  const auto line = std::ranges::find_if(
      position.outs, [&](const auto* out) { return out->content.broke == removal.content.broke; });
  return &removal == position.removal && line != position.outs.end() ? (*line)->stamp
                                                                     : removal.stamp;
}

void found_not_comparable(const JointCase& at, const PositionState& position,
                          Deviations& deviations) {
  const auto* finding = finding_with(position, Verdict::NotComparable);
  if (finding == nullptr || position.specified == nullptr) return;  // another rule says so
  const auto* removal = finding->removal;
  const bool nothing_to_test =
      removal != nullptr && (removal->content.broke == record::BreakLoose::Empty ||
                             removal->content.broke == record::BreakLoose::Sheared);
  if (nothing_to_test) {
    deviations.push_back(of_kind(
        flag_position(kFoundNotComparable, Level::Check, at.joint, position.position,
                      says("line {} tests it, and line {} says that it broke loose {}: one of them "
                           "is wrong",
                           as::line(finding->entry->stamp), as::line(told_in(position, *removal)),
                           as::name(record::word_of(removal->content.broke))),
                      "strike the line that is wrong; it may be another position's"),
        "gone"));
    return;
  }
  const auto why = why_not_comparable(position, *finding);
  deviations.push_back(
      of_kind(flag_position(kFoundNotComparable, Level::Note, at.joint, position.position,
                            says("found {}, but {}{}", as::found(finding->torque, at.unit()),
                                 why.says, Statement{"", std::string(why.kind) + '|'}),
                            "follow the specification; the finding proves nothing about it"),
              why.kind));
}

void unit_slip(const JointCase& at, const PositionState& position, Deviations& deviations) {
  const auto& pattern = at.pattern;
  const auto* finding = position.finding();
  if (finding == nullptr || !finding->ratio) return;
  if (finding->verdict != Verdict::Low && finding->verdict != Verdict::High) return;
  // Where most are within, one that is merely near the ratio of two units is more likely slack.
  const bool mostly_within = 2 * static_cast<std::size_t>(pattern.within) > pattern.found.size();
  const auto slip = mostly_within ? finding::unit_slip(*finding->ratio, finding::kCloseToSlip)
                                  : finding::unit_slip(*finding->ratio);
  if (!slip) return;
  deviations.push_back(flag_position(
      kUnitSlip, Level::Check, at.joint, position.position,
      says("found is {} times the specification; a number meant in {} but taken in {} gives {} "
           "times",
           as::figure(*finding->ratio, fmt::format("{:.2f}", *finding->ratio)),
           as::name(slip->meant), as::name(slip->taken),
           as::wording(fmt::format("{:.3g}", slip->factor))),
      "check the unit in the specification and the scale of the wrench; correct the line that is "
      "wrong"));
}

// Where two people tested it without knowing of each other, one of them has tested what the other
// had tightened; and which of the two verdicts holds is not for the order of their lines to say.
void found_apart(const JointCase& at, const PositionState& position, Deviations& deviations) {
  std::vector<Statement> values;
  bool is_judged_otherwise = false;
  for (const auto& one : position.findings) {
    const auto other = std::ranges::find_if(position.findings, [&](const auto& each) {
      return at.whole.job.apart.are_apart(one.entry->stamp, each.entry->stamp);
    });
    if (other == position.findings.end()) continue;
    is_judged_otherwise |= one.verdict != other->verdict;
    values.push_back(says("{}, {} (line {}, {})", as::found(one.torque, at.unit()),
                          as::wording(finding::word_of(one.verdict)), as::line(one.entry->stamp),
                          as::name(one.entry->stamp.by)));
  }
  if (values.empty()) return;
  deviations.push_back(flag_position(
      kFoundApart, is_judged_otherwise ? Level::Hold : Level::Check, at.joint, position.position,
      says("it was tested on both sides while copies of this logbook were apart: {}; {}",
           joined(values, "; "),
           as::wording(is_judged_otherwise ? "until one is struck the worse counts"
                                           : "the latest counts")),
      "ask both who was at it first: the first test after breaking loose is the best; strike the "
      "other one"));
}

void repeated_finding(const JointCase& at, const PositionState& position, Deviations& deviations) {
  std::vector<Statement> values;
  for (const auto& finding : position.findings) {
    // One of an earlier teardown speaks of another time.
    if (finding.removal != position.findings.back().removal) continue;
    values.push_back(
        says("{} (line {})", as::found(finding.torque, at.unit()), as::line(finding.entry->stamp)));
  }
  const auto are_apart = [&](const auto& a, const auto& b) {
    return at.whole.job.apart.are_apart(a.entry->stamp, b.entry->stamp);
  };
  if (values.size() < 2 ||
      std::ranges::adjacent_find(position.findings, are_apart) != position.findings.end()) {
    return;  // or told as such (found_apart)
  }
  deviations.push_back(flag_position(
      kRepeatedFinding, Level::Check, at.joint, position.position,
      says("{} findings stand for one fastener: {}; the latest counts", as::count(values.size()),
           joined(values, ", ")),
      "strike the ones that should not count; the first test after breaking loose is the best"));
}

}  // namespace

constinit const Rule kFoundLow{"found low",
                               "found torque below the tolerance, uncertainty included", found_low,
                               kRestsOn<record::Removal, record::Measured>, found_together};
constinit const Rule kFoundHigh{
    "found high", "found torque above the tolerance, uncertainty included", found_high,
    kRestsOn<record::Removal, record::Measured>, found_together};
constinit const Rule kFoundUndecided{
    "found undecided", "found torque whose uncertainty straddles a limit", found_undecided,
    kRestsOn<record::Removal, record::Measured>, undecided_together};
constinit const Rule kFoundNotComparable{
    "found not comparable",
    "found torque that says nothing about the specification (angle, threadlocker, grade X)",
    found_not_comparable, kRestsOn<record::Removal, record::Measured>, each_in_turn};
constinit const Rule kUnitSlip{
    "unit slip", "ratio of found to specified torque that a confusion of units explains", unit_slip,
    kRestsOn<record::Removal, record::Measured>, each_in_turn};
constinit const Rule kRepeatedFinding{"repeated finding",
                                      "two findings that stand for one fastener", repeated_finding,
                                      kRestsOn<record::Measured>, each_in_turn};
constinit const Rule kFoundApart{"found apart", "one fastener tested in two copies", found_apart,
                                 kRestsOn<record::Measured>, each_in_turn};

}  // namespace audit
