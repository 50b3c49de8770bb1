// Takes clean random jobs, plants faults of every kind at random places, and asks the audit. The
// rates and the seed are printed; a kind that is missed once, or one word about a clean job, fails.

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <iostream>
#include <set>

#include "audit/audit.h"
#include "faults.h"
#include "support/catch.h"

namespace {

// BOLTWITNESS_SEED takes the place of this one.
constexpr std::uint64_t kSeed = 20260601;
constexpr int kRuns = 2000;
constexpr int kCleanJobs = 500;

std::uint64_t seed() {
  const char* given = std::getenv("BOLTWITNESS_SEED");
  return given == nullptr ? kSeed : std::strtoull(given, nullptr, 10);
}

std::vector<audit::Deviation> deviations_of(const record::Job& job) {
  const auto survey = finding::survey(job);
  return audit::run({job, survey, audit_moment()}).deviations;
}

std::string ids(const std::vector<audit::Deviation>& deviations) {
  std::string text;
  for (const auto& deviation : deviations) text += deviation.id + " ";
  return text;
}

// A job with the fault in it, and what the audit has to name.
struct Faulty {
  record::Job job;
  Expected expected;
};

// Draws jobs until one has a place for the fault.
Faulty faulty_job(const Fault& fault, Dice& dice) {
  for (int attempt = 0; attempt < 300; ++attempt) {
    auto job = random_job(dice, fault.stage);
    if (auto expected = fault.plant(job, dice)) return {std::move(job), *expected};
  }
  FAIL("no job has a place for: " + fault.name);
  return {};
}

bool is_named(const std::vector<audit::Deviation>& deviations, const Fault& fault,
              const Expected& expected) {
  return std::ranges::any_of(deviations, [&](const audit::Deviation& deviation) {
    return deviation.rule == fault.rule && deviation.joint == expected.joint &&
           (!expected.position || deviation.position == expected.position);
  });
}

// True, and no alarm: a finding in a joint that is tightened by angle compares with nothing.
bool is_note_on_angle(const record::Job& job, const audit::Deviation& deviation) {
  return deviation.level == audit::Level::Note && deviation.rule == "found not comparable" &&
         std::ranges::any_of(job.specifications, [&](const auto& entry) {
           return entry.content.joint == deviation.joint &&
                  record::has_angle_step(entry.content.procedure);
         });
}

}  // namespace

TEST_CASE("every kind of planted fault is found, wherever it is", "[audit][mutation]") {
  Dice dice(seed());
  const auto& faults = all_faults();
  REQUIRE(faults.size() >= 25);
  std::vector<int> runs(faults.size());
  std::vector<int> found(faults.size());
  for (int run = 0; run < kRuns; ++run) {
    const auto kind = static_cast<std::size_t>(run) % faults.size();
    const auto faulty = faulty_job(faults[kind], dice);
    const auto deviations = deviations_of(faulty.job);
    ++runs[kind];
    if (is_named(deviations, faults[kind], faulty.expected)) {
      ++found[kind];
      continue;
    }
    UNSCOPED_INFO(fmt::format("run {}: {} at {}/{} gave {}", run, faults[kind].name,
                              faulty.expected.joint, faulty.expected.position.value_or(0),
                              ids(deviations)));
  }
  std::cout << fmt::format("mutation check, seed {}, {} runs\n", seed(), kRuns);
  for (std::size_t kind = 0; kind < faults.size(); ++kind) {
    std::cout << fmt::format("  {:5.1f} %  {:3} of {:3}  {} -> {}\n",
                             100.0 * found[kind] / runs[kind], found[kind], runs[kind],
                             faults[kind].name, faults[kind].rule);
  }
  CHECK(found == runs);
}

TEST_CASE("no word about clean random jobs", "[audit][mutation]") {
  Dice dice(seed() + 1);
  int false_alarms = 0;
  for (int run = 0; run < kCleanJobs; ++run) {
    const auto stage = static_cast<Stage>(run % 3);
    const auto job = run % 2 == 0 ? random_job(dice, stage) : uneven_job(dice, stage);
    auto deviations = deviations_of(job);
    std::erase_if(deviations,
                  [&](const auto& deviation) { return is_note_on_angle(job, deviation); });
    if (deviations.empty()) continue;
    ++false_alarms;
    UNSCOPED_INFO(fmt::format("run {}: {}", run, ids(deviations)));
  }
  std::cout << fmt::format("false alarms on {} clean jobs, seed {}: {}\n", kCleanJobs, seed() + 1,
                           false_alarms);
  CHECK(false_alarms == 0);
}

TEST_CASE("every rule is put to the mutation check", "[audit][mutation]") {
  std::set<std::string> tried;
  for (const auto& fault : all_faults()) tried.insert(fault.rule);
  for (const auto& rule : audit::rules()) {
    INFO(rule.name);
    CHECK(tried.contains(std::string(rule.name)));
  }
}
