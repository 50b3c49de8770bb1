// Which decisions a rule takes: over every rule and every decision, one that is taken settles the
// matter and opens the work that it asks for, and one that is not says why and how to go on.

#include "audit/decision_table.h"

#include <algorithm>
#include <set>

#include "audit/audit.h"
#include "audit/rules.h"
#include "audit/settlement.h"
#include "faults.h"
#include "support/catch.h"
#include "support/reassembled.h"

namespace decision_table_test {

namespace {

using record::Decision;

constexpr Decision kDecisions[] = {Decision::UseAsIs, Decision::ReTorque, Decision::Renew,
                                   Decision::Repair, Decision::CorrectRecord};

audit::Audit audit_of(const record::Job& job) {
  const auto survey = finding::survey(job);
  return audit::run({job, survey, audit_moment()});
}

// A job on which the rule has found something, the id of that, and what it found.
struct Flagged {
  record::Job job;
  std::string id;
  audit::Deviation deviation = {};
};

audit::Deviation of_kind(const audit::Rule& rule, const std::string& kind) {
  audit::Deviation deviation;
  deviation.rule = rule.name;
  deviation.kind = kind;
  return deviation;
}

std::set<Decision> taken_by(const audit::Rule& rule, const std::string& kind) {
  std::set<Decision> taken;
  for (const auto decision : kDecisions) {
    if (audit::why_not(of_kind(rule, kind), decision).empty()) taken.insert(decision);
  }
  return taken;
}

Flagged flagged_by(const audit::Rule& rule, Dice& dice) {
  const auto fault = std::ranges::find(all_faults(), rule.name, &Fault::rule);
  REQUIRE(fault != all_faults().end());
  for (int attempt = 0; attempt < 300; ++attempt) {
    Flagged flagged{random_job(dice, fault->stage), {}, {}};
    if (!fault->plant(flagged.job, dice)) continue;
    for (const auto& deviation : audit_of(flagged.job).deviations) {
      if (deviation.rule != rule.name) continue;
      flagged.id = deviation.id;
      flagged.deviation = deviation;
    }
    if (!flagged.id.empty()) return flagged;
  }
  FAIL("no job on which the rule finds something");
  return {};
}

record::Job decided(const Flagged& flagged, Decision decision) {
  auto job = flagged.job;
  const auto audit = audit_of(job);
  auto disposition = audit::disposition_about(*audit::deviation_in(audit, flagged.id), flagged.id);
  disposition.decision = decision;
  disposition.reason = "looked at";
  job.dispositions.push_back({next_stamp(job, audit_moment()), disposition});
  return job;
}

}  // namespace

TEST_CASE("every decision that a rule takes has its effect", "[audit]") {
  for (const auto& rule : audit::rules()) {
    Dice dice(20260602);  // of its own, so that a new rule changes nothing of the others
    const auto flagged = flagged_by(rule, dice);
    for (const auto decision : kDecisions) {
      INFO(flagged.id << " as " << record::word_of(decision));
      const auto why = audit::why_not(flagged.deviation, decision);
      if (!why.empty()) {
        CHECK(why.size() > 40);  // a sentence that leads on
        continue;
      }
      const auto job = decided(flagged, decision);
      const auto after = audit_of(job);
      // What opens work again may not be named any more; then it stands among what is to be done.
      const auto* deviation = audit::deviation_in(after, flagged.id);
      if (decision == Decision::UseAsIs) REQUIRE(deviation != nullptr);
      if (deviation != nullptr) CHECK(deviation->settled != nullptr);
      const bool is_open = std::ranges::any_of(after.to_do, [&](const auto& work) {
        return work.decision->content.deviation == flagged.id;
      });
      CHECK(is_open == (decision != Decision::UseAsIs));
      CHECK(after.in_order() == (after.to_do.empty() && after.open(audit::Level::Hold) == 0));
    }
  }
}

TEST_CASE("what has to be done whatever was decided is not used as it is", "[audit]") {
  std::set<std::string_view> not_as_is;
  for (const auto& rule : audit::rules()) {
    if (!audit::why_not(of_kind(rule, ""), Decision::UseAsIs).empty()) not_as_is.insert(rule.name);
    // Whatever the audit names can be closed by putting the record right.
    CHECK(audit::why_not(of_kind(rule, ""), Decision::CorrectRecord).empty());
  }
  CHECK(not_as_is == std::set<std::string_view>{"dated too early", "found after tightening",
                                                "stripe turned", "over-torqued",
                                                "turn outside its window", "other target",
                                                "stripe too early", "not back", "not renewed",
                                                "pass skipped", "no final stripe", "second person",
                                                "item count", "no order", "stray entry"});
}

TEST_CASE("a decision fits what is wrong", "[audit]") {
  // A torn or wrong fastener is made good by no tightening and no word, a hole by no new fastener.
  const std::set<Decision> new_one = {Decision::UseAsIs, Decision::Renew, Decision::CorrectRecord};
  const std::set<Decision> mended = {Decision::UseAsIs, Decision::Repair, Decision::CorrectRecord};
  const std::set<Decision> new_one_alone = {Decision::Renew, Decision::CorrectRecord};
  CHECK(taken_by(audit::kDamagedThread, "fastener") == new_one);
  CHECK(taken_by(audit::kDamagedThread, "hole") == mended);
  CHECK(taken_by(audit::kDamagedHole, "") == mended);
  CHECK(taken_by(audit::kOtherFastener, "another") == new_one);
  CHECK(taken_by(audit::kOtherFastener, "swapped").contains(Decision::Repair));
  CHECK_FALSE(taken_by(audit::kOtherFastener, "swapped").contains(Decision::ReTorque));
  CHECK(taken_by(audit::kOverstretched, "") == new_one);
  CHECK(taken_by(audit::kOneTime, "") == new_one);
  CHECK(taken_by(audit::kFoundEmpty, "") == new_one);
  CHECK(taken_by(audit::kBreakLoose, "sheared") == new_one_alone);
  CHECK(taken_by(audit::kBreakLoose, "loose").size() == std::size(kDecisions));
  CHECK(taken_by(audit::kNotRenewed, "") == new_one_alone);
}

}  // namespace decision_table_test
