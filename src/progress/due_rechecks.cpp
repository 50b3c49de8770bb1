#include "progress/due_rechecks.h"

#include <algorithm>
#include <tuple>

#include "record/address.h"

namespace progress {
namespace {

using record::RunningAmount;
using Look = record::Entry<record::Recheck>;

// The reading of the machine's counters now: what was said, else the highest that any line notes.
class Readings {
 public:
  Readings(const record::Job& job, const std::optional<RunningAmount>& said) : said_(said) {
    record::for_each_entry(job, [&](const auto& entry) {
      if constexpr (requires { entry.content.counter->amount; }) {
        take(entry.content.counter, entry.stamp.done_at);
      }
    });
  }

  // The highest that any line notes that was done by then.
  [[nodiscard]] std::optional<RunningAmount> on(record::Counter counter,
                                                record::Moment by_then) const {
    std::optional<RunningAmount> highest;
    for (const auto& [done_at, noted] : noted_) {
      const auto here = record::on_counter(noted, counter);
      if (done_at <= by_then && here && (!highest || here->amount > highest->amount)) {
        highest = here;
      }
    }
    return highest;
  }

  [[nodiscard]] std::optional<RunningAmount> on(record::Counter counter) const {
    if (said_) return record::on_counter(*said_, counter);
    std::optional<RunningAmount> highest;
    for (const auto& [as_noted, noted] : highest_) {
      const auto here = record::on_counter(noted, counter);
      if (here && (!highest || here->amount > highest->amount)) highest = here;
    }
    return highest;
  }

 private:
  void take(const std::optional<RunningAmount>& noted, record::Moment done_at) {
    if (!noted) return;
    noted_.emplace_back(done_at, *noted);
    const auto [highest, is_first] = highest_.try_emplace(noted->counter, *noted);
    if (!is_first && noted->amount > highest->second.amount) highest->second = *noted;
  }

  std::optional<RunningAmount> said_;
  std::vector<std::pair<record::Moment, RunningAmount>> noted_;
  std::map<record::Counter, RunningAmount> highest_;  // by the counter and unit as noted
};

// Gathers the positions of one joint that count from the same line.
class Gathering {
 public:
  Gathering(const Readings& readings, record::Moment now) : now_(now), readings_(readings) {}

  void add_turned(const record::Joint& joint, int position, const Look& look) {
    DueRecheck due;
    due.joint = &joint;
    due.since = &look.stamp;
    due.since_stripe = false;
    due.turned = look.content.turned;
    due.is_overdue = true;
    put(std::move(due), position);
  }

  void add(const record::Joint& joint, int position,
           const record::Entry<record::FinalStripe>& stripe,
           const std::vector<const Look*>& looks) {
    const auto* last = looks.empty() ? nullptr : looks.back();
    for (const auto& interval : joint.rechecks) {
      DueRecheck due;
      due.joint = &joint;
      due.after = interval;
      due.since = &stripe.stamp;
      if (!interval.repeats) {
        add_once(std::move(due), position, stripe, looks);
        continue;
      }
      if (last != nullptr) due.since = &last->stamp;
      due.since_stripe = last == nullptr;
      put(timed(due, last == nullptr ? stripe.content.counter : last->content.counter), position);
    }
    add_dwell(joint, position, stripe.stamp, last);
  }

  std::vector<DueRecheck> take() { return std::move(list_); }

 private:
  void add_once(DueRecheck due, int position, const record::Entry<record::FinalStripe>& stripe,
                const std::vector<const Look*>& looks) {
    if (const auto* span = std::get_if<record::SpanOfTime>(&due.after->after)) {
      const auto due_at = stripe.stamp.done_at + span->seconds;
      if (!looks.empty() && looks.back()->stamp.done_at >= due_at) return;
      return put(timed(due, std::nullopt), position);
    }
    const auto& distance = std::get<RunningAmount>(due.after->after);
    const auto here = [&](const std::optional<RunningAmount>& noted) {
      return noted ? record::on_counter(*noted, distance.counter) : std::nullopt;
    };
    auto from = here(stripe.content.counter);
    for (const auto* look : looks) {
      auto reading = here(look->content.counter);
      if (!from) {
        from = reading;
        if (reading) due.since = &look->stamp;
        due.since_stripe = !reading;
        continue;
      }
      if (!reading) reading = readings_.on(distance.counter, look->stamp.done_at);
      if (reading && reading->amount >= from->amount + distance.amount) return;
    }
    put(timed(due, from), position);
  }

  void add_dwell(const record::Joint& joint, int position, const record::Stamp& stripe,
                 const Look* look) {
    if (joint.passes.empty()) return;
    const auto& rule = record::pass_rule_named(joint.passes);
    if (!rule.dwell) return;
    if (look != nullptr && look->stamp.done_at >= stripe.done_at + rule.dwell->seconds) return;
    DueRecheck due;
    due.joint = &joint;
    due.since = &stripe;
    due.after = *rule.dwell;
    due.rule = &rule;
    put(timed(due, std::nullopt), position);
  }

  [[nodiscard]] DueRecheck timed(DueRecheck due,
                                 const std::optional<RunningAmount>& counter) const {
    if (const auto* span = std::get_if<record::SpanOfTime>(&due.after->after)) {
      due.due_at = due.since->done_at + span->seconds;
      due.is_overdue = now_ >= *due.due_at;
      return due;
    }
    const auto& distance = std::get<RunningAmount>(due.after->after);
    due.reading = readings_.on(distance.counter);
    const auto from = counter ? record::on_counter(*counter, distance.counter) : std::nullopt;
    if (!from) return due;
    due.due_reading = RunningAmount{from->amount + distance.amount, distance.counter};
    due.is_overdue = due.reading && due.reading->amount >= due.due_reading->amount;
    return due;
  }

  void put(DueRecheck due, int position) {
    const auto same = std::find_if(list_.rbegin(), list_.rend(), [&](const DueRecheck& other) {
      return other.joint == due.joint && other.since == due.since && other.after == due.after &&
             other.rule == due.rule;
    });
    if (same != list_.rend()) {
      same->positions.push_back(position);
      return;
    }
    due.positions = {position};
    list_.push_back(std::move(due));
  }

  record::Moment now_;
  const Readings& readings_;
  std::vector<DueRecheck> list_;
};

// What comes first on the list compares as less.
auto rank(const DueRecheck& due) {
  const bool by_clock = due.due_at.has_value();
  return std::tuple(
      !due.is_overdue, !due.turned, !by_clock, by_clock ? *due.due_at : record::Moment{},
      !due.due_reading,
      due.due_reading && due.reading ? due.due_reading->amount - due.reading->amount : 0.0);
}

}  // namespace

Looks::Looks(const record::Job& job) {
  for (const auto& entry : job.rechecks) {
    for (const int position : entry.content.positions) {
      all_[{record::folded_code(entry.content.joint), position}].push_back(&entry);
    }
  }
  for (auto& [place, looks] : all_) {
    std::ranges::sort(
        looks, [](const Look* a, const Look* b) { return record::is_earlier(a->stamp, b->stamp); });
  }
}

std::vector<const Look*> Looks::since(const record::Entry<record::FinalStripe>& stripe,
                                      std::string_view joint, int position) const {
  const auto found = all_.find({record::folded_code(joint), position});
  if (found == all_.end()) return {};
  auto looks = found->second;
  std::erase_if(looks,
                [&](const Look* look) { return !record::is_later(look->stamp, stripe.stamp); });
  return looks;
}

std::vector<DueRecheck> due_rechecks(const record::Job& job, const finding::Survey& survey,
                                     const Progress& progress, record::Moment now,
                                     const std::optional<RunningAmount>& reading) {
  const Looks looks(job);
  const Readings readings(job, reading);
  std::vector<DueRecheck> list;
  for (const auto& state : survey.joints) {
    // One gathering a joint, so that the search for what belongs together stays short.
    Gathering gathering(readings, now);
    const auto& joint = *state.joint;
    for (const auto& position : state.positions) {
      const auto finish = progress.finish_of(joint.code, position.position);
      if (finish.turned != nullptr) {
        gathering.add_turned(joint, position.position, *finish.turned);
      } else if (finish.drawn != nullptr) {
        gathering.add(joint, position.position, *finish.drawn,
                      looks.since(*finish.drawn, joint.code, position.position));
      }
    }
    for (auto& due : gathering.take()) list.push_back(std::move(due));
  }
  std::ranges::stable_sort(list, {}, rank);
  return list;
}

}  // namespace progress
