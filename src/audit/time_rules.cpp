#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <chrono>
#include <map>
#include <string>
#include <vector>

#include "audit/flag.h"
#include "audit/rules.h"

namespace audit {
namespace {

using finding::PositionState;
using record::Counter;
using record::RunningAmount;

// A fastener is tested where it sits, in the hour in which it is broken loose. So long after it was
// taken out the time of one of the lines is wrong: our own figure, no source.
constexpr std::chrono::hours kLongOut{12};

void tested_in_bag(const JointCase& at, const PositionState& position, Deviations& deviations) {
  const auto* finding = position.finding();
  if (finding == nullptr || finding->removal == nullptr) return;
  const auto& tested = finding->entry->stamp;
  const auto& removed = *finding->removal;
  if (tested.done_at - removed.stamp.done_at < kLongOut) return;
  deviations.push_back(apart(flag_position(
      kTestedInBag, Level::Check, at.joint, position.position,
      says("line {} tests it {}, when it had been out since {} (line {}){}", as::line(tested),
           as::moment(tested.done_at), as::moment(removed.stamp.done_at), as::line(removed.stamp),
           removed.content.bag.empty() ? Statement{}
                                       : says(", in bag {}", as::name(removed.content.bag))),
      fmt::format("a fastener in its bag cannot be tested: enter the line whose time is wrong "
                  "again with its own: --at ... --replace {}",
                  tested.line))));
}

// What a line noted of the machine's counter.
struct Noted {
  const record::Stamp* stamp = nullptr;
  RunningAmount amount;
};

std::vector<Noted> noted_in(const record::Job& job) {
  std::vector<Noted> all;
  record::for_each_entry(job, [&](const auto& entry) {
    if constexpr (requires { entry.content.counter->amount; }) {
      if (entry.content.counter) all.push_back({&entry.stamp, *entry.content.counter});
    }
  });
  std::ranges::sort(
      all, [](const Noted& a, const Noted& b) { return record::is_earlier(*a.stamp, *b.stamp); });
  return all;
}

// Kilometres and miles are one counter; hours are another.
Counter counted_as(const RunningAmount& amount) {
  return amount.counter == Counter::Miles ? Counter::Kilometres : amount.counter;
}

// A change of unit rounds; a part in a million is the same reading.
constexpr double kSameReading = 1e-6;

void counter_backwards(const Case& subject, Deviations& deviations) {
  std::map<Counter, Noted> highest;
  for (const auto& noted : noted_in(subject.job)) {
    const auto counter = counted_as(noted.amount);
    const auto reading = *record::on_counter(noted.amount, counter);
    const auto [before, is_first] = highest.try_emplace(counter, noted);
    if (is_first) continue;
    const auto most = *record::on_counter(before->second.amount, counter);
    if (reading.amount >= most.amount * (1.0 - kSameReading)) {
      before->second = noted;
      continue;
    }
    auto deviation = flag_job(
        kCounterBackwards, Level::Check,
        says("line {} notes {} on the machine's counter, where line {} of {} had noted {}",
             as::line(*noted.stamp), as::name(record::write_exact(noted.amount)),
             as::line(*before->second.stamp), as::moment(before->second.stamp->done_at),
             as::name(record::write_exact(before->second.amount))),
        fmt::format("a counter does not run backwards: read it again and enter the wrong line "
                    "anew with --replace {}; a counter that was changed is started in a logbook "
                    "of its own",
                    noted.stamp->line));
    deviation.id += fmt::format(":{}", noted.stamp->id.substr(noted.stamp->id.size() - 8));
    deviation.parts.front().id = deviation.id;
    deviations.push_back(std::move(deviation));
  }
}

// Clocks of two machines differ by so much without anybody being wrong.
constexpr std::chrono::minutes kClocksDiffer{5};

void ahead_of_clock(const Case& subject, Deviations& deviations) {
  std::vector<const record::Stamp*> ahead;
  record::for_each_entry(subject.job, [&](const auto& entry) {
    if (entry.stamp.done_at > subject.now + kClocksDiffer) ahead.push_back(&entry.stamp);
  });
  if (ahead.empty()) return;
  std::ranges::sort(ahead, {}, &record::Stamp::line);
  std::vector<std::int64_t> lines;
  lines.reserve(ahead.size());
  for (const auto* stamp : ahead) lines.push_back(stamp->line);
  const auto last = *std::ranges::max_element(ahead, {}, &record::Stamp::done_at);
  deviations.push_back(flag_job(
      kAheadOfClock, Level::Check,
      says("{} {} dated ahead of this machine's clock, the latest {}: {}", as::count(ahead.size()),
           as::wording(lines.size() == 1 ? "line is" : "lines are"), as::moment(last->done_at),
           as::wording(fmt::format("{}", fmt::join(lines, ", ")))),
      "set the clock right, or enter those lines again with their own time: --at ... --replace "
      "LINE"));
}

}  // namespace

constinit const Rule kTestedInBag{"tested in its bag",
                                  "found-torque tests dated while the fastener had long been out",
                                  tested_in_bag, kRestsOn<record::Removal, record::Measured>};
constinit const Rule kCounterBackwards{"counter backwards",
                                       "readings of the machine's counter below an earlier one",
                                       counter_backwards};
constinit const Rule kAheadOfClock{"ahead of the clock", "lines dated in the future",
                                   ahead_of_clock};

}  // namespace audit
