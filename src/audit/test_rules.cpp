#include <fmt/format.h>

#include <algorithm>

#include "audit/flag.h"
#include "audit/rules.h"
#include "audit/together.h"
#include "finding/not_to_be_tested.h"
#include "record/address.h"

namespace audit {
namespace {

using finding::NoTest;
using finding::PositionState;

// The test of this teardown: the finding that counts, else the first pull of one under way.
const record::Stamp* test_of(const JointCase& at, const PositionState& position) {
  if (const auto* finding = position.finding()) return &finding->entry->stamp;
  const record::Stamp* first = nullptr;
  for (const auto* pull : at.lines.of<record::Pull>()) {
    if (pull->content.position != position.position) continue;
    if (first == nullptr || record::is_earlier(pull->stamp, *first)) first = &pull->stamp;
  }
  return first;
}

// Out with that test or after it: what a pull did to the fastener goes with it.
bool came_out(const PositionState& position, const record::Stamp& tested) {
  const auto* finding = position.finding();
  if (finding != nullptr && finding->removal != nullptr) return true;
  return position.removal != nullptr && record::is_later(position.removal->stamp, tested);
}

// What is to be done about it, with a place for the address, and the word that is evidence.
struct Consequence {
  std::string_view kind;
  Level level = Level::Check;
  const char* what_to_do = "";
};

// A load that was let go has moved parts and loaded the neighbours, whether this fastener came out
// or not, and somebody has to look before anything goes back. The others spoil the fastener alone,
// which is past once it has come out: one-time fasteners are renewed then and threadlocker is
// applied anew.
Consequence consequence_of(NoTest why, bool is_out) {
  const auto once_out = is_out ? Level::Check : Level::Hold;
  switch (why) {
    case NoTest::LiveLoad:
      return {"live-load", Level::Hold,
              "see that the load is held by other means, that nothing has shifted and that the "
              "fasteners beside {} have not been overloaded; then decide what was seen"};
    case NoTest::OneTimeAngle:
      return {"one-time-angle", once_out,
              is_out ? "compare {} with nothing, and fit new ones"
                     : "each pull stretched it further: take it out and fit a new one: out {}"};
    case NoTest::Threadlocker:
      break;
  }
  return {"threadlocker", once_out,
          is_out ? "what was read at {} is the adhesive's torque too; clean both threads and lock "
                   "them anew"
                 : "its lock is broken: take it out, clean both threads and lock it anew: out {}"};
}

// One sentence for all, whatever their lines.
std::string tested_together(const Case& subject, const Deviation& together) {
  const auto& joint = *subject.lookups->joints.find(together.joint);
  const auto reasons = finding::not_to_be_tested(joint, together.positions.front());
  return fmt::format("{} were tested, and must not be: {}",
                     record::write_positions(together.positions),
                     finding::in_words(reasons.front()));
}

void not_to_be_tested(const JointCase& at, const PositionState& position, Deviations& deviations) {
  const auto reasons = finding::not_to_be_tested(at.joint, position.position);
  if (reasons.empty()) return;
  const auto* tested = test_of(at, position);
  if (tested == nullptr) return;
  const auto why = reasons.front();
  const auto [kind, level, what_to_do] = consequence_of(why, came_out(position, *tested));
  auto deviation = of_kind(
      flag_position(kNotToBeTested, level, at.joint, position.position,
                    says("line {} tests it, and it must not be tested: {}", as::line(*tested),
                         Statement{std::string(finding::in_words(why)), as::name(kind).figures}),
                    fmt::format(fmt::runtime(what_to_do),
                                record::write_address(at.joint.joint->code, position.position))),
      kind);
  deviation.what_to_do_at = what_to_do;
  deviations.push_back(std::move(deviation));
}

// What stands of a fastener that was tested after it had been tightened. A test breaks it loose and
// pulls it back to what it had, which is no pass: it is tightened again from the first one.
void found_after_tightening(const JointCase& at, const PositionState& position,
                            Deviations& deviations) {
  if (at.work == nullptr) return;
  const auto& code = at.joint.joint->code;
  const auto& again = at.whole.lookups->broken_loose.at(code, position.position);
  if (again.test == nullptr || again.is_out_since) return;
  const auto address = record::write_address(code, position.position);
  const auto finish = at.progress().finish_of(code, position.position);
  const auto flag = [&](Level level, std::string_view kind, Statement says,
                        const std::string& what) {
    auto deviation =
        of_kind(flag_position(kFoundAfterTightening, level, at.joint, position.position,
                              std::move(says), fmt::format(fmt::runtime(what), address)),
                kind);
    deviation.what_to_do_at = what;
    deviations.push_back(std::move(deviation));
  };
  if (finish.reached != nullptr && record::is_later(*finish.reached, *again.test)) {
    return flag(Level::Note, "since-tightened",
                says("line {} tests it after line {} had tightened it again; it was brought to its "
                     "final value since",
                     as::line(*again.test), as::line(*again.tightened)),
                "what it found at {} is of the new tightening and not of what the machine ran "
                "with; strike it where that misleads");
  }
  const auto* stripe = finish.drawn;
  const bool is_striped = stripe != nullptr && record::is_earlier(stripe->stamp, *again.test);
  const auto or_else = fmt::format(
      "; if it is coming apart again, record it as out: out {{0}}; if the time of the line is "
      "wrong, enter it again with its own: --at ... --replace {}",
      again.test->line);
  if (is_striped) {
    return flag(Level::Hold, "striped",
                says("line {} tests it after its final stripe was drawn (line {}): the test broke "
                     "it loose, and the stripe stands for nothing",
                     as::line(*again.test), as::line(stripe->stamp)),
                "bring it to its final value again from pass 1, tighten {0}, wipe the stripe and "
                "draw it anew" +
                    or_else);
  }
  flag(Level::Check, "open",
       says("line {} tests it after line {} tightened it again: the test broke it loose",
            as::line(*again.test), as::line(*again.tightened)),
       "bring it to its final value again from pass 1, tighten {0}" + or_else);
}

}  // namespace

constinit const Rule kFoundAfterTightening{
    "found after tightening", "found-torque tests of a fastener that was back in already",
    found_after_tightening, kRestsOn<record::Measured, record::Tightening>, each_in_turn};
constinit const Rule kNotToBeTested{
    "not to be tested",
    "found-torque tests of a fastener that must not be tested: it holds a live load, is one-time "
    "and tightened by angle, or is held by threadlocker",
    not_to_be_tested, kRestsOn<record::Removal, record::Measured>, tested_together};

}  // namespace audit
