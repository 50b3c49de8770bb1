// Takes clean random jobs, plants faults of every kind at random places, and asks the audit. The
// rates and the seed are printed; a kind that is missed once, or one word about a clean job, fails.

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <iostream>
#include <map>
#include <set>

#include "audit/audit.h"
#include "audit/decision_table.h"
#include "audit/settlement.h"
#include "faults.h"
#include "support/catch.h"
#include "support/reassembled.h"

namespace mutation_test {

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
           (!expected.position || deviation.is_about(*expected.position));
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

namespace {

// The same job in a logbook of another unit and as a merged copy: other sentences, same facts.
record::Job otherwise_worded(record::Job job) {
  job.start.unit = quantity::TorqueUnit::InchPoundForce;
  const auto renumber = [](auto& entries) {
    for (auto& entry : entries) entry.stamp.line += 1000;
  };
  renumber(job.wrenches);
  renumber(job.joints);
  renumber(job.specifications);
  renumber(job.removals);
  renumber(job.findings);
  renumber(job.hold_points);
  renumber(job.hold_point_steps);
  renumber(job.renewals);
  renumber(job.tightenings);
  renumber(job.stripes);
  renumber(job.rechecks);
  return job;
}

using PartsById = std::map<std::string, audit::Part>;

PartsById parts_of(const record::Job& job) {
  PartsById parts;
  for (const auto& deviation : deviations_of(job)) {
    for (const auto& part : deviation.parts) parts[part.id] = part;
  }
  return parts;
}

}  // namespace

TEST_CASE("evidence is the same whatever the sentence, for every planted fault",
          "[audit][mutation]") {
  Dice dice(seed() + 2);
  int other_words = 0;
  for (const auto& fault : all_faults()) {
    for (int run = 0; run < 3; ++run) {
      const auto faulty = faulty_job(fault, dice);
      const auto parts = parts_of(faulty.job);
      const auto others = parts_of(otherwise_worded(faulty.job));
      INFO(fault.name);
      REQUIRE(parts.size() == others.size());
      for (const auto& [id, part] : parts) {
        INFO(id << ": " << part.says);
        REQUIRE(others.contains(id));
        CHECK(others.at(id).evidence == part.evidence);
        if (others.at(id).says != part.says) ++other_words;
      }
    }
  }
  CHECK(other_words > 100);
}

namespace {

// A decision on all that is open, each of another kind in turn.
void decide_all(record::Job& job, record::Moment at, Dice& dice) {
  const auto deviations = deviations_of(job);
  for (const auto& deviation : deviations) {
    if (deviation.settled != nullptr) continue;
    auto disposition = audit::disposition_about(deviation, deviation.id);
    disposition.decision = dice.yes(0.5) ? record::Decision::Renew : record::Decision::Repair;
    if (deviation.positions.empty()) disposition.decision = record::Decision::UseAsIs;
    if (deviation.rule == "found low") disposition.decision = record::Decision::ReTorque;
    // What it does not take would leave it as it was.
    for (const auto other : {record::Decision::Renew, record::Decision::Repair}) {
      if (audit::why_not(deviation, disposition.decision).empty()) break;
      disposition.decision = other;
    }
    disposition.reason = "looked at";
    job.dispositions.push_back({next_stamp(job, at), disposition});
  }
}

// What the decisions ask for, apart from tightening.
void carry_out(record::Job& job, record::Moment at) {
  const auto decided = job.dispositions;
  for (const auto& [stamp, disposition] : decided) {
    if (disposition.decision == record::Decision::Renew) {
      job.renewals.push_back(
          {next_stamp(job, at), {disposition.joint, record::positions_of(disposition)}});
    } else if (disposition.decision == record::Decision::Repair) {
      auto done = disposition;
      done.done = "put right";
      job.dispositions.push_back({next_stamp(job, at), done});
    }
  }
}

const Fault& fault_named(std::string_view name) {
  return *std::ranges::find(all_faults(), name, &Fault::name);
}

}  // namespace

TEST_CASE("no word about jobs whose decisions were carried out, and one where not",
          "[audit][mutation]") {
  Dice dice(seed() + 3);
  const std::vector<std::string_view> kinds = {"found far too low", "hole found empty",
                                               "already loose",     "seized",
                                               "thread pulled",     "wrong length"};
  int false_alarms = 0;
  for (int run = 0; run < kCleanJobs / 2; ++run) {
    const auto& fault = fault_named(kinds[static_cast<std::size_t>(run) % kinds.size()]);
    auto job = faulty_job(fault, dice).job;
    const auto decided_at = job.removals.back().stamp.done_at + std::chrono::days(1);
    decide_all(job, decided_at, dice);
    const auto survey = finding::survey(job);
    const auto decided = audit::run({job, survey, audit_moment()});
    INFO(fmt::format("run {}, {}: {}", run, fault.name, ids(decided.deviations)));
    CHECK(decided.ready());
    const bool asks = std::ranges::any_of(job.dispositions, [](const auto& entry) {
      return entry.content.decision != record::Decision::UseAsIs;
    });
    CHECK(decided.to_do.empty() != asks);

    carry_out(job, decided_at + std::chrono::hours(1));
    reassemble(job, decided_at + std::chrono::days(12));
    const auto back = finding::survey(job);
    const auto done = audit::run({job, back, audit_moment()});
    const bool is_open = std::ranges::any_of(
        done.deviations, [](const auto& deviation) { return deviation.settled == nullptr; });
    if (is_open || !done.to_do.empty()) {
      ++false_alarms;
      std::cout << fmt::format("  run {}, {}: {}; {} to do\n", run, fault.name,
                               ids(done.deviations),
                               done.to_do.empty() ? "nothing" : progress::in_words(done.to_do[0]));
    }
  }
  std::cout << fmt::format("false alarms on {} jobs with decisions carried out, seed {}: {}\n",
                           kCleanJobs / 2, seed() + 3, false_alarms);
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

}  // namespace mutation_test
