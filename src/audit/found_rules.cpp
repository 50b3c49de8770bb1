#include <fmt/format.h>

#include "audit/flag.h"
#include "audit/rules.h"
#include "finding/in_line.h"
#include "finding/unit_slip.h"

namespace audit {
namespace {

using finding::Finding;
using finding::JointState;
using finding::PositionState;
using finding::Verdict;

// Calls `act` for the latest finding of every position that has this verdict.
template <class Act>
void for_each_verdict(const Case& subject, Verdict verdict, Act&& act) {
  for (const auto& joint : subject.survey.joints) {
    for (const auto& position : joint.positions) {
      const auto* finding = position.finding();
      if (finding != nullptr && finding->verdict == verdict) act(joint, position, *finding);
    }
  }
}

std::string against(const Case& subject, const Finding& finding) {
  const auto& prevailing = finding.entry->content.prevailing;
  return fmt::format(
      "found {} (grade {}), specified {}{}", found_text(subject, finding.torque),
      finding::letter_of(finding.graded.grade), window_text(subject, *finding.window),
      prevailing ? ", running torque " + quantity::write_exact(*prevailing) + " included" : "");
}

// Flags every position whose latest finding has this verdict. It is a hold where what the fastener
// was tightened to is out as well, a check where only what turns it today is.
void flag_outside(const Case& subject, Verdict verdict, const Rule& rule,
                  const std::string& what_to_do, std::vector<Deviation>& deviations) {
  for_each_verdict(
      subject, verdict,
      [&](const JointState& joint, const PositionState& position, const Finding& f) {
        const bool both = finding::is_outside_both(f);
        deviations.push_back(flag_position(
            rule, both ? Level::Hold : Level::Check, joint, position.position,
            against(subject, f) +
                (both ? ""
                      : "; it may have been tightened as specified, by the method's own range"),
            what_to_do));
      });
}

void found_low(const Case& subject, std::vector<Deviation>& deviations) {
  flag_outside(subject, Verdict::Low, kFoundLow,
               "look for a relaxed gasket, settled faces or a fastener that turned; check thread "
               "and seat, then tighten to the specification",
               deviations);
}

void found_high(const Case& subject, std::vector<Deviation>& deviations) {
  flag_outside(subject, Verdict::High, kFoundHigh,
               "it may be overtightened or stuck: check its length and thread against a new one, "
               "and renew it where in doubt",
               deviations);
}

void found_undecided(const Case& subject, std::vector<Deviation>& deviations) {
  for_each_verdict(
      subject, Verdict::Undecided,
      [&](const JointState& joint, const PositionState& position, const Finding& f) {
        const bool in_line = finding::in_line_at_specification(f.entry->content, *f.window);
        deviations.push_back(flag_position(
            kFoundUndecided, Level::Check, joint, position.position,
            against(subject, f) + (in_line ? "; in line at the specification, which is all it says"
                                           : "; the uncertainty straddles a limit"),
            "\"boltwitness show\" of the position says what would settle it, smaller steps, on "
            "until "
            "the mark is past, or a better wrench; else treat it as not known"));
      });
}

void found_not_comparable(const Case& subject, std::vector<Deviation>& deviations) {
  for_each_verdict(
      subject, Verdict::NotComparable,
      [&](const JointState& joint, const PositionState& position, const Finding& f) {
        if (position.specified == nullptr) return;  // another rule says so
        const auto reason = [&]() -> std::string {
          if (f.graded.grade == finding::Grade::X) {
            return "the finding is no evidence: " + std::string(f.graded.rules.front()->why);
          }
          if (!position.window) {
            return "the specification does not end in a torque";
          }
          return "threadlocker holds the fastener besides its preload";
        };
        const auto* removal = f.removal;
        const bool nothing_to_test =
            removal != nullptr && (removal->content.broke == record::BreakLoose::Empty ||
                                   removal->content.broke == record::BreakLoose::Sheared);
        if (nothing_to_test) {
          deviations.push_back(flag_position(
              kFoundNotComparable, Level::Check, joint, position.position,
              fmt::format("line {} tests it, and line {} says that it broke loose {}: "
                          "one of them is wrong",
                          f.entry->stamp.line, removal->stamp.line,
                          record::word_of(removal->content.broke)),
              "strike the line that is wrong; it may be another position's"));
          return;
        }
        deviations.push_back(
            flag_position(kFoundNotComparable, Level::Note, joint, position.position,
                          fmt::format("found {}, but {}", found_text(subject, f.torque), reason()),
                          "follow the specification; the finding proves nothing about it"));
      });
}

void unit_slip(const Case& subject, std::vector<Deviation>& deviations) {
  for (std::size_t i = 0; i < subject.survey.joints.size(); ++i) {
    const auto& joint = subject.survey.joints[i];
    const auto& pattern = subject.patterns[i];
    // Where most are within, one that is merely near the ratio of two units is more likely slack.
    const bool mostly_within = 2 * static_cast<std::size_t>(pattern.within) > pattern.found.size();
    for (const auto& position : joint.positions) {
      const auto* finding = position.finding();
      if (finding == nullptr || !finding->ratio) continue;
      if (finding->verdict != Verdict::Low && finding->verdict != Verdict::High) continue;
      const auto slip = mostly_within ? finding::unit_slip(*finding->ratio, finding::kCloseToSlip)
                                      : finding::unit_slip(*finding->ratio);
      if (!slip) continue;
      deviations.push_back(flag_position(
          kUnitSlip, Level::Check, joint, position.position,
          fmt::format("found is {:.2f} times the specification; a number meant in {} but taken in "
                      "{} gives {:.3g} times",
                      *finding->ratio, slip->meant, slip->taken, slip->factor),
          "check the unit in the specification and the scale of the wrench; correct the line that "
          "is wrong"));
    }
  }
}

void repeated_finding(const Case& subject, std::vector<Deviation>& deviations) {
  for (const auto& joint : subject.survey.joints) {
    for (const auto& position : joint.positions) {
      if (position.findings.size() < 2) continue;
      std::string values;
      std::size_t count = 0;
      for (const auto& finding : position.findings) {
        // One of an earlier teardown speaks of another time.
        if (finding.removal != position.findings.back().removal) continue;
        ++count;
        values += fmt::format("{}{} (line {})", values.empty() ? "" : ", ",
                              found_text(subject, finding.torque), finding.entry->stamp.line);
      }
      if (count < 2) continue;
      deviations.push_back(flag_position(
          kRepeatedFinding, Level::Check, joint, position.position,
          fmt::format("{} findings stand for one fastener: {}; the latest counts", count, values),
          "strike the ones that should not count; the first test after breaking "
          "loose is the best"));
    }
  }
}

}  // namespace

constinit const Rule kFoundLow{"found low",
                               "found torque below the tolerance, uncertainty included", found_low,
                               RestsOn{.removals = true, .findings = true}};
constinit const Rule kFoundHigh{"found high",
                                "found torque above the tolerance, uncertainty included",
                                found_high, RestsOn{.removals = true, .findings = true}};
constinit const Rule kFoundUndecided{"found undecided",
                                     "found torque whose uncertainty straddles a limit",
                                     found_undecided, RestsOn{.removals = true, .findings = true}};
constinit const Rule kFoundNotComparable{
    "found not comparable",
    "found torque that says nothing about the specification (angle, threadlocker, grade X)",
    found_not_comparable, RestsOn{.removals = true, .findings = true}};
constinit const Rule kUnitSlip{
    "unit slip", "ratio of found to specified torque that a confusion of units explains", unit_slip,
    RestsOn{.removals = true, .findings = true}};
constinit const Rule kRepeatedFinding{"repeated finding",
                                      "two findings that stand for one fastener", repeated_finding,
                                      RestsOn{.findings = true}};

}  // namespace audit
