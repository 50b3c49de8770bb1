#include "act/removal_entry.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "act/amendment.h"
#include "act/at_page.h"
#include "act/hold_point_entry.h"
#include "act/kept_words.h"
#include "act/lookup.h"
#include "act/under_cover.h"
#include "failure/failure.h"
#include "fastener/thread_text.h"
#include "progress/teardown.h"
#include "quantity/length_text.h"
#include "record/address.h"
#include "record/typed_text.h"
#include "words/line_text.h"

namespace act {
namespace {

// `job` is of one joint.
std::set<int> positions_out(const record::Job& job) {
  std::set<int> out;
  for (const auto& [place, teardown] : progress::teardown_of(job)) {
    if (teardown.removal != nullptr) out.insert(place.second);
  }
  return out;
}

// The line that has the position out at this moment, or that takes it out after that with nothing
// put back between; nothing where it was in. `job` is of one joint.
const record::Entry<record::Removal>* out_by(const record::Job& job, int position,
                                             record::Moment moment) {
  struct Event {
    const record::Stamp* stamp = nullptr;
    const record::Entry<record::Removal>* removal = nullptr;  // none where it was tightened
  };
  Event before;
  Event after;
  const auto take = [&](const auto& entry, const record::Entry<record::Removal>* removal) {
    const auto& positions = entry.content.positions;
    if (std::ranges::find(positions, position) == positions.end()) return;
    const bool is_before = entry.stamp.done_at <= moment;
    auto& nearest = is_before ? before : after;
    const bool is_nearer =
        nearest.stamp == nullptr || (is_before ? record::is_later(entry.stamp, *nearest.stamp)
                                               : record::is_earlier(entry.stamp, *nearest.stamp));
    if (is_nearer) nearest = {&entry.stamp, removal};
  };
  for (const auto& entry : job.removals) take(entry, &entry);
  for (const auto& entry : job.tightenings) {
    if (!record::is_skipped(entry.content)) take(entry, nullptr);
  }
  return before.removal != nullptr ? before.removal : after.removal;
}

// What the words say; what they leave out is as in `before`, where there is one.
record::Removal removal_from(const RemovalWords& words, const record::Removal* before) {
  auto address = record::read_address(words.address);
  KeptWords kept(words.correction);
  record::Removal removal;
  if (before != nullptr) {
    removal = *before;
    const record::Removal none;
    if (!kept.keeps("broke", !words.broke.empty())) removal.broke = none.broke;
    if (!kept.keeps("no-mark", words.no_mark)) removal.marked = none.marked;
    if (!kept.keeps("damaged-thread", !words.damaged_thread.empty())) {
      removal.damaged_thread.reset();
    }
    if (!kept.keeps("bag", !words.bag.empty())) removal.bag.clear();
    if (!kept.keeps("note", !words.note.empty())) removal.note.clear();
    if (!kept.keeps("length", !words.length.empty())) {
      removal.other_length.reset();
      removal.other_length_typed.clear();
    }
    if (!kept.keeps("size", !words.size.empty())) removal.other_size.clear();
    if (!kept.keeps("grade", !words.grade.empty())) removal.other_grade.clear();
    kept.check();
  }
  removal.joint = std::move(address.joint);
  removal.positions = std::move(address.positions);
  if (!words.broke.empty()) {
    removal.broke = record::read_word<record::BreakLoose>(words.broke);
  }
  if (words.no_mark) removal.marked = false;
  if (!words.damaged_thread.empty()) {
    removal.damaged_thread = record::read_word<record::DamagedThread>(words.damaged_thread);
  }
  if (!words.bag.empty()) removal.bag = record::read_text(words.bag, "--bag", 80);
  if (!words.note.empty()) removal.note = record::read_text(words.note, "--note", 1000);
  if (!words.length.empty()) {
    removal.other_length = quantity::read_length(words.length);
    removal.other_length_typed = record::read_text(words.length, "--length");
  }
  if (!words.size.empty()) {
    removal.other_size = fastener::write_exact(fastener::read_thread(words.size));
  }
  if (!words.grade.empty()) {
    removal.other_grade = record::read_grade_or_text(words.grade);
  }
  return removal;
}

// What it takes the ground from, where it is dated into the midst of work: that before it counts no
// more, and that after it stands on nothing.
std::string in_the_midst(const record::Job& job, const record::Removal& removal,
                         record::Moment done_at) {
  std::vector<int> positions;
  const record::Stamp* before = nullptr;
  const record::Stamp* after = nullptr;
  for (const int position : removal.positions) {
    const record::Stamp* last_before = nullptr;
    const record::Stamp* first_after = nullptr;
    for (const auto& [stamp, work] : job.tightenings) {
      if (!record::is_work(work) ||
          std::ranges::find(work.positions, position) == work.positions.end()) {
        continue;
      }
      if (stamp.done_at <= done_at) {
        if (last_before == nullptr || record::is_later(stamp, *last_before)) last_before = &stamp;
      } else if (first_after == nullptr || record::is_earlier(stamp, *first_after)) {
        first_after = &stamp;
      }
    }
    const auto is_striped_between = [&](const auto& entry) {
      return entry.stamp.done_at <= done_at && record::is_later(entry.stamp, *last_before) &&
             std::ranges::find(entry.content.positions, position) != entry.content.positions.end();
    };
    if (last_before == nullptr || first_after == nullptr ||
        std::ranges::any_of(job.stripes, is_striped_between)) {
      continue;
    }
    positions.push_back(position);
    before = last_before;
    after = first_after;
  }
  if (positions.empty()) return {};
  return fmt::format(
      "{} came out between line {} and line {}: what was done before counts no more, and what came "
      "after counts once its passes are gone through from the first: tighten {}",
      record::write_address(removal.joint, positions), before->line, after->line, removal.joint);
}

Done keep_removal(logbook::Logbook& logbook, Amendment& amendment, record::Removal removal) {
  const auto& writer = amendment.writer();
  const auto joint = joint_at_or_refuse(logbook, removal.joint, removal.positions);
  removal.joint = joint.code;
  const auto job = logbook.job_of(joint.code);
  auto remarks = check_hold_points(job, joint.code, writer.done_at, writer.now);
  for (auto& remark : remarks_under_cover(logbook, joint.code, writer.done_at)) {
    remarks.push_back(std::move(remark));
  }

  for (const int position : removal.positions) {
    if (const auto* out = out_by(job, position, writer.done_at)) {
      const auto where = record::write_address(joint.code, position);
      const auto& stamp = out->stamp;
      const auto when = record::write_local(stamp.done_at);
      throw AtPage<failure::Refusal>(
          fmt::format("{0} is recorded as out already (line {1}, {2}), and nothing went back in "
                      "between; if that line is wrong, enter it again: out {3} --replace {1} --why "
                      "...",
                      where, stamp.line, when,
                      record::write_address(joint.code, out->content.positions)),
          fmt::format("{} is recorded as out already by {} (line {}, {}), and nothing went back in "
                      "between; leave this one out",
                      where, stamp.by, stamp.line, when));
    }
  }
  if (auto midst = in_the_midst(job, removal, writer.done_at); !midst.empty()) {
    remarks.push_back(std::move(midst));
  }
  auto stamp = amendment.append(removal);
  const auto out = positions_out(logbook.job_of(joint.code));
  amendment.commit();

  const bool went_back = std::ranges::any_of(
      job.tightenings, [](const auto& entry) { return record::is_work(entry.content); });
  Done done{
      {{std::move(stamp), fmt::format("{}; {} of {} {}", words::line_text(removal), out.size(),
                                      joint.count, went_back ? "out now" : "accounted for")}},
      std::move(remarks)};
  amendment.tell_replaced(done);
  return done;
}

}  // namespace

Done record_removal(logbook::Logbook& logbook, const logbook::Writer& writer,
                    const RemovalWords& words) {
  Amendment amendment(logbook, writer, words.correction);
  amendment.strike_replaced({"removal"});
  const auto removal = removal_from(words, amendment.before<record::Removal>());
  auto remarks = remarks_on_covers_in(logbook, removal.joint);
  auto done = keep_removal(logbook, amendment, removal);
  done.remarks.insert(done.remarks.begin(), remarks.begin(), remarks.end());
  return done;
}

Done record_removal(logbook::Logbook& logbook, const logbook::Writer& writer,
                    record::Removal removal, const Correction& correction) {
  Amendment amendment(logbook, writer, correction);
  amendment.strike_replaced({"removal"});
  return keep_removal(logbook, amendment, std::move(removal));
}

Done say_more(logbook::Logbook& logbook, const logbook::Writer& writer,
              const record::Entry<record::Removal>& before, const record::Removal& now) {
  const auto number = std::to_string(before.stamp.line);
  if (before.content.positions.size() > 1) {
    throw failure::Refusal(fmt::format(
        "line {0} took out {1} together; to say it of all of them: boltwitness out {1} --replace "
        "{0} --why \"...\" --bag \"...\" --note \"...\"",
        number, record::write_address(before.content.joint, before.content.positions)));
  }
  return record_removal(logbook, writer, now, {number, "said more at the bench"});
}

}  // namespace act
