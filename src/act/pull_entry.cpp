#include "act/pull_entry.h"

#include <fmt/format.h>

#include <algorithm>

#include "act/hold_point_entry.h"
#include "act/lookup.h"
#include "failure/failure.h"
#include "finding/position_search.h"
#include "progress/teardown.h"
#include "record/typed_text.h"
#include "words/line_text.h"

namespace act {
namespace {

using record::Measured;

[[noreturn]] void refuse_dated_before(const std::string& what, const record::Stamp& later,
                                      record::Moment done_at) {
  throw failure::Refusal(fmt::format(
      "{} {}, later than {}, when this was done (line {}): a test goes on in the order in "
      "which it was pulled. Pull once more, or leave this one out",
      what, record::write_local(later.done_at), record::write_local(done_at), later.line));
}

// The test under way at a position, which goes on at this moment; nothing where none is. What is
// written of it is read in the order in which it was done, so that nothing goes before its pulls.
std::optional<Measured> test_so_far(const record::Job& job, const record::Joint& joint,
                                    int position, record::Moment done_at) {
  const auto teardown = progress::teardown_of(job);
  const auto& pulls = progress::at(teardown, joint.code, position).pulls;
  if (pulls.empty()) return std::nullopt;
  if (const auto& last = pulls.back()->stamp; done_at < last.done_at) {
    refuse_dated_before(fmt::format("{} was pulled", record::write_address(joint.code, position)),
                        last, done_at);
  }
  return record::test_of(pulls);
}

// A pull is of the bolt that was broken loose in this teardown. One that is dated before it came
// out is of no teardown, and one before it was tightened again of an earlier one: it would count
// for no test.
void refuse_before_this_teardown(const record::Job& job, const record::Joint& joint, int position,
                                 record::Moment done_at) {
  const auto address = record::write_address(joint.code, position);
  for (const auto& entry : job.tightenings) {
    const auto& done = entry.content;
    if (entry.stamp.done_at > done_at && !record::is_skipped(done) &&
        record::same_code(done.joint, joint.code) &&
        std::ranges::find(done.positions, position) != done.positions.end()) {
      refuse_dated_before(address + " was tightened", entry.stamp, done_at);
    }
  }
  const auto teardown = progress::teardown_of(job);
  const auto* removal = progress::at(teardown, joint.code, position).removal;
  if (removal != nullptr && removal->stamp.done_at > done_at) {
    refuse_dated_before(address + " came out", removal->stamp, done_at);
  }
}

// A pull alone counts for nothing where the test that came after it has ended.
void refuse_before_finding(const record::Job& job, const record::Joint& joint, int position,
                           record::Moment done_at) {
  const auto teardown = progress::teardown_of(job);
  const auto* finding = progress::at(teardown, joint.code, position).finding;
  if (finding == nullptr || finding->stamp.done_at <= done_at) return;
  refuse_dated_before(
      fmt::format("the test of {} ended", record::write_address(joint.code, position)),
      finding->stamp, done_at);
}

Measured with_next(const record::Job& job, const record::Joint& joint, const record::Wrench& wrench,
                   const NextPull& next, record::Moment done_at) {
  const int position = next.tested.address.positions.front();
  refuse_before_this_teardown(job, joint, position, done_at);
  auto test = test_so_far(job, joint, position, done_at);
  if (!test) test = test_without_readings(joint, position, wrench);
  if (next.restart) test->restart = *next.restart;
  if (!record::same_code(test->wrench, wrench.name) || test->unit != wrench.scale.unit) {
    throw failure::InputError(fmt::format(
        "{} is under way on {} in {}; enter that first, then go on with another wrench or scale",
        record::write_address(joint.code, position), test->wrench, quantity::name_of(test->unit)));
  }
  record::add_readings(*test, {next.reading}, next.typed);
  record::check_readings(test->readings);
  return *test;
}

bool begins_with(const Measured& test, const Measured& so_far) {
  return test.readings.size() >= so_far.readings.size() &&
         std::equal(so_far.readings.begin(), so_far.readings.end(), test.readings.begin());
}

}  // namespace

TestDone record_pull(logbook::Logbook& logbook, const logbook::Writer& writer,
                     const NextPull& next) {
  if (record::reached(next.reading.mark)) {
    return record_finding(
        logbook, writer, next.tested, [&](const auto& held, const auto& joint, const auto& wrench) {
          return with_next(held.job_of(joint.code), joint, wrench, next, writer.done_at);
        });
  }
  logbook::Recording recording(logbook, writer);
  const auto& tested = next.tested;
  const auto joint = joint_at_or_refuse(logbook, tested.address.joint, tested.address.positions);
  const auto wrench = wrench_or_refuse(logbook, next.tested.wrench).content;
  const auto job = logbook.job_of(joint.code);
  auto remarks = check_hold_points(job, joint.code, writer.done_at, writer.now);
  refuse_before_finding(job, joint, tested.address.positions.front(), writer.done_at);
  auto test = with_next(job, joint, wrench, next, writer.done_at);
  check_on_scale(test, wrench);
  const record::Pull pull{test.joint,   test.position, test.wrench, test.unit,
                          test.restart, next.reading,  next.typed};
  auto stamp = recording.append(pull);
  if (test.readings.size() == 1) {
    for (auto& remark :
         remarks_on_tightened(logbook.job_of(joint.code), joint.code, pull.position, stamp)) {
      remarks.push_back(std::move(remark));
    }
  }
  recording.commit();
  test.readings = {next.reading};
  for (auto& remark : remarks_on_marks(test, wrench)) remarks.push_back(std::move(remark));
  return {
      {{{std::move(stamp), words::line_text(pull)}}, std::move(remarks)}, pull.position, nullptr};
}

void check_may_be_set(const finding::JointState& joint, record::Measured test,
                      const record::Wrench& wrench, double setting) {
  const auto ceiling = finding::ceiling_at(joint, test);
  if (ceiling && record::applied_torque(test, setting) > ceiling->torque) {
    throw failure::Refusal(fmt::format(
        "{} would pass the ceiling, {}; where it was pulled all the same, type it with the mark, "
        "such as {}s",
        quantity::write_exact(quantity::StatedTorque{setting, test.unit}),
        finding::name_of(ceiling->from), quantity::write_exact(setting)));
  }
  record::add_readings(test, {{setting, record::Mark::Short, {}}}, "");
  record::check_readings(test.readings);
  check_on_scale(test, wrench);
}

TestDone record_test_so_far(logbook::Logbook& logbook, const logbook::Writer& writer,
                            const record::Address& address) {
  const int position = address.positions.front();
  const auto joint = joint_or_refuse(logbook, address.joint).content;
  const auto test = test_so_far(logbook.job_of(joint.code), joint, position, writer.done_at);
  if (!test) {
    throw failure::Refusal(
        fmt::format("{}: nothing has been pulled yet, so there is nothing to enter",
                    record::write_address(address.joint, position)));
  }
  return record_finding(logbook, writer, {address, test->wrench},
                        [&](const auto&, const auto&, const auto&) { return *test; });
}

TestDone record_shouted(logbook::Logbook& logbook, const logbook::Writer& writer,
                        const record::ShoutedLine& line, std::optional<record::Restart> restart) {
  const int position = line.address.positions.front();
  return record_finding(
      logbook, writer, {line.address, line.wrench},
      [&](const auto& held, const auto& joint, const auto& wrench) {
        auto test = test_without_readings(joint, position, wrench);
        record::add_readings(test, record::read_readings(line.readings, std::nullopt),
                             record::read_optional_text(line.readings, "the readings", 1000));
        record::check_readings(test.readings);
        const auto so_far = test_so_far(held.job_of(joint.code), joint, position, writer.done_at);
        if (so_far) test.restart = so_far->restart;
        if (restart) test.restart = *restart;
        if (so_far &&
            (!record::same_code(so_far->wrench, test.wrench) || !begins_with(test, *so_far))) {
          throw failure::Refusal(
              fmt::format("{} is under way at {} on {}; call all of its readings with "
                          "that wrench, or take them back first",
                          record::write_address(joint.code, position),
                          record::readings_text(*so_far), so_far->wrench));
        }
        return test;
      });
}

}  // namespace act
