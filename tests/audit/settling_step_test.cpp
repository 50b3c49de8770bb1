// What is printed to get past each deviation that the rules find in planted faults: always a
// command that does something, with gaps that are known ones.

#include "words/settling_step.h"

#include <algorithm>
#include <regex>
#include <set>

#include "faults.h"
#include "support/catch.h"

namespace settling_step_test {

TEST_CASE("whatever is planted, a deed or a decision leads past it", "[audit][words]") {
  const std::set<std::string> verbs = {"settle",  "out",  "renew", "tighten", "stripe",
                                       "recheck", "item", "joint", "bench",   "strike"};
  const std::set<std::string> gaps = {"DECISION", "TEXT", "WHO", "READING", "TORQUE", "DOCUMENT"};
  static const std::regex kGap("[A-Z]{3,}(?![A-Za-z0-9])");
  Dice dice(20260603);
  std::set<std::string> looked_at;
  for (const auto& fault : all_faults()) {
    for (int attempt = 0; attempt < 300; ++attempt) {
      auto job = random_job(dice, fault.stage);
      if (!fault.plant(job, dice)) continue;
      // What waits in a circle has no plan; the first screen prints what mends that.
      std::optional<progress::Reassembly> now;
      try {
        now.emplace(std::move(job), record::local_day(audit_moment()));
      } catch (const plan::PlanCycle& cycle) {
        CHECK_THAT(cycle.mend(), ContainsSubstring("--replace "));
        break;
      }
      const auto open = progress::open_list(*now, audit_moment());
      const auto audit = audit::run({now->job, now->survey, audit_moment(), &now->progress});
      for (const auto& deviation : audit.deviations) {
        looked_at.insert(deviation.rule);
        const auto step = words::step_to_settle(deviation, *now, open);
        INFO(deviation.id << ": " << step.command << "; " << step.why);
        const auto verb = step.command.substr(0, step.command.find(' '));
        CHECK(verbs.contains(verb));
        CHECK(step.command.find(' ') != std::string::npos);
        CHECK(step.command.find("...") == std::string::npos);
        CHECK_FALSE(step.why.empty());
        // An id is no gap, whatever letters it has.
        const auto words = std::regex_replace(step.command, std::regex("settle [^ ]+"), "settle");
        for (auto gap = std::sregex_iterator(words.begin(), words.end(), kGap);
             gap != std::sregex_iterator(); ++gap) {
          CHECK(gaps.contains(gap->str()));
        }
        if (verb == "settle") CHECK_THAT(step.why, ContainsSubstring("decide: "));
      }
      break;
    }
  }
  CHECK(looked_at.size() > 50);
}

}  // namespace settling_step_test
