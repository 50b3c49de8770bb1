#include "act/finding_entry.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "act/amendment.h"
#include "act/hold_point_entry.h"
#include "act/kept_words.h"
#include "act/lookup.h"
#include "act/option_error.h"
#include "act/under_cover.h"
#include "failure/failure.h"
#include "finding/not_to_be_tested.h"
#include "finding/plausibility.h"
#include "plan/broken_loose.h"
#include "quantity/length_text.h"
#include "quantity/number_text.h"
#include "record/typed_text.h"
#include "words/found_value.h"
#include "words/line_text.h"

namespace act {
namespace {

// A finding is a fact and is kept; but a torque that the fastener cannot carry is often a slip.
std::optional<std::string> remark_on_plausibility(const finding::JointState& joint,
                                                  const finding::Finding& found) {
  const auto& measured = found.entry->content;
  const auto* specified = joint.at(measured.position).specified;
  const auto limits = finding::bolt_limits(
      *joint.joint, specified == nullptr ? fastener::Condition::AsReceived : specified->condition);
  auto torque = found.torque.reference();
  if (measured.prevailing) torque = torque - measured.prevailing->torque();
  // An adhesive takes a part of the torque: what the bolt carries is then not known.
  if (!limits || !limits->friction_known) return std::nullopt;
  if (found.torque.basis == finding::Basis::UpperBound) return std::nullopt;
  if (finding::plausibility_of(torque, *limits) != finding::Plausibility::TooMuch) {
    return std::nullopt;
  }
  return finding::plausibility_text({quantity::in_unit(torque, measured.unit), measured.unit},
                                    *limits) +
         "; recorded as found";
}

// A fastener is tested once, right after it was broken loose: a second test is often the first put
// right, and then both stand.
std::vector<std::string> remarks_on_tested_before(const finding::JointState& joint,
                                                  const finding::Finding& found) {
  const auto& measured = found.entry->content;
  std::vector<std::string> remarks;
  for (const auto& other : joint.at(measured.position).findings) {
    if (other.entry == found.entry || other.removal != found.removal || other.is_past) continue;
    remarks.push_back(fmt::format(
        "{} was tested already: {} {} (line {}). Both stand, and the latest counts; where this "
        "puts that right: strike {} --why TEXT",
        record::write_address(measured.joint, measured.position),
        words::found_words(other.torque, joint.unit), quantity::name_of(joint.unit),
        other.entry->stamp.line, other.entry->stamp.line));
  }
  return remarks;
}

// The words, with what they leave out as the finding before had it, but for its adapter.
FindingWords completed(FindingWords words, const record::Measured& before, KeptWords& kept) {
  if (words.readings.empty()) words.readings = {record::readings_text(before)};
  KeptWords::fill(words.wrench, before.wrench);
  kept.take("radius", words.radius, before.radius_typed);
  kept.take("restart", words.restart, std::string(record::word_of(before.restart)));
  const auto& was = before.neighbours;
  kept.take("neighbours", words.neighbours, was ? std::string(record::word_of(*was)) : "");
  const auto& running = before.prevailing;
  kept.take("prevailing", words.prevailing, running ? quantity::write_exact(*running) : "");
  return words;
}

}  // namespace

record::Measured test_without_readings(const record::Joint& joint, int position,
                                       const record::Wrench& wrench) {
  record::Measured test;
  test.joint = joint.code;
  test.position = position;
  test.wrench = wrench.name;
  test.unit = wrench.scale.unit;
  return test;
}

void check_on_scale(const record::Measured& measured, const record::Wrench& wrench) {
  for (const auto& reading : measured.readings) {
    if (record::is_on_scale(wrench, reading.setting)) continue;
    throw failure::InputError(record::not_on_scale(wrench, reading.setting) +
                              "; check the setting and the wrench");
  }
}

void check_finding(const record::Measured& measured, const record::Wrench& wrench) {
  of_option("readings", [&] { check_on_scale(measured, wrench); });
  if (!measured.prevailing) return;
  of_option("--prevailing", [&] {
    finding::check_prevailing(
        measured, finding::found_torque(measured, wrench, quantity::Percent::of_hundred(0)));
  });
}

std::vector<std::string> remarks_on_marks(const record::Measured& measured,
                                          const record::Wrench& wrench) {
  for (const auto& reading : measured.readings) {
    if (!finding::is_between_marks(measured, wrench, reading.setting)) continue;
    return {fmt::format(
        "{} is between two marks of {}, which has one every {}; check the setting",
        quantity::write_exact(reading.setting), wrench.name,
        quantity::write_exact(quantity::StatedTorque{wrench.graduation, wrench.scale.unit}))};
  }
  return {};
}

std::vector<std::string> remarks_on_tightened(const record::Job& job, const std::string& joint,
                                              int position, const record::Stamp& test) {
  const plan::BrokenLoose broken_loose(job);
  const auto& again = broken_loose.at(joint, position);
  if (again.test == nullptr || again.is_out_since || again.test->id != test.id) return {};
  return {fmt::format(
      "{} had been tightened (line {}), and the test broke it loose: its passes and its final "
      "stripe are to be done again; if it is coming apart, record it as out",
      record::write_address(joint, position), again.tightened->line)};
}

record::Address tested_address(const FindingWords& words) {
  auto address = record::read_address(words.address);
  if (address.positions.size() > 1) {
    throw failure::InputError(
        fmt::format("{}: a finding is of one fastener; enter each position by itself",
                    quantity::quoted(words.address)));
  }
  return address;
}

record::Measured test_from(const FindingWords& words, const record::Joint& joint, int position,
                           const record::Wrench& wrench) {
  auto measured = test_without_readings(joint, position, wrench);
  std::string typed;
  for (const auto& word : words.readings) typed += (typed.empty() ? "" : " ") + word;
  std::optional<quantity::Length> radius;
  if (!words.radius.empty()) {
    radius = of_option("--radius", [&] { return quantity::read_length(words.radius); });
    measured.radius_typed = record::read_text(words.radius, "--radius");
  }
  of_option("readings", [&] {
    measured.readings = record::read_readings(typed, radius);
    measured.readings_typed = record::read_optional_text(typed, "the readings", 1000);
    if (!measured.readings.empty()) record::check_readings(measured.readings);
  });
  if (!words.restart.empty()) {
    measured.restart =
        of_option("--restart", [&] { return record::read_word<record::Restart>(words.restart); });
  }
  if (!words.neighbours.empty()) {
    measured.neighbours = of_option(
        "--neighbours", [&] { return record::read_word<record::Neighbours>(words.neighbours); });
  }
  if (!words.prevailing.empty()) {
    measured.prevailing = of_option("--prevailing", [&] {
      return record::read_positive_torque(words.prevailing, "--prevailing");
    });
  }
  if (const auto adapter = of_option("--extension", [&] { return adapter_from(words.adapter); })) {
    measured.adapter = *adapter;
  }
  return measured;
}

record::Measured finding_from(const FindingWords& words, const record::Joint& joint, int position,
                              const record::Wrench& wrench) {
  auto measured = test_from(words, joint, position, wrench);
  of_option("readings", [&] { record::check_readings(measured.readings); });
  check_finding(measured, wrench);
  return measured;
}

namespace {

TestDone keep_finding(logbook::Logbook& logbook, Amendment& amendment, const TestedFastener& tested,
                      const MakeFinding& make) {
  const auto& writer = amendment.writer();
  const auto joint = joint_at_or_refuse(logbook, tested.address.joint, tested.address.positions);
  const auto wrench = wrench_or_refuse(logbook, tested.wrench).content;
  auto remarks =
      check_hold_points(logbook.job_of(joint.code), joint.code, writer.done_at, writer.now);
  for (auto& remark : remarks_under_cover(logbook, joint.code, writer.done_at)) {
    remarks.push_back(std::move(remark));
  }
  const auto measured = make(logbook, joint, wrench);
  check_finding(measured, wrench);
  auto stamp = amendment.append(measured);
  auto after = std::make_shared<const Standing>(logbook, joint.code);
  amendment.commit();

  TestDone test;
  test.position = measured.position;
  for (auto& remark : remarks_on_marks(measured, wrench)) remarks.push_back(std::move(remark));
  test.done = {{{std::move(stamp), words::line_text(measured)}}, std::move(remarks)};
  test.after = std::move(after);
  // What ought not to have been done is said before all else.
  auto& said = test.done.remarks;
  const auto warnings = finding::warnings_before_test(*test.after->joint, {measured.position});
  said.insert(said.begin(), warnings.begin(), warnings.end());
  for (auto& remark :
       remarks_on_tightened(test.after->job, joint.code, measured.position, test.stamp())) {
    said.push_back(std::move(remark));
  }
  for (auto& remark : remarks_on_tested_before(*test.after->joint, test.finding())) {
    said.push_back(std::move(remark));
  }
  amendment.tell_replaced(test.done);
  if (auto remark = remark_on_plausibility(*test.after->joint, test.finding())) {
    test.done.remarks.push_back(*std::move(remark));
  }
  return test;
}

}  // namespace

const finding::Finding& TestDone::finding() const {
  const auto& all = after->joint->at(position).findings;
  return *std::ranges::find_if(
      all, [&](const auto& finding) { return finding.entry->stamp.id == stamp().id; });
}

audit::Audit audit_of(const TestDone& test, record::Moment now) {
  if (test.finding().verdict == finding::Verdict::Within) return {};
  const auto& after = *test.after;
  return audit::run_for_joint({after.job, after.survey, now}, after.joint->joint->code);
}

TestDone record_finding(logbook::Logbook& logbook, const logbook::Writer& writer,
                        const FindingWords& words) {
  const auto address = tested_address(words);
  Amendment amendment(logbook, writer, words.correction);
  amendment.strike_replaced({"finding"});
  const auto* before = amendment.before<record::Measured>();
  KeptWords kept(words.correction);
  auto restated = before == nullptr ? words : completed(words, *before, kept);
  restated.adapter = {};
  const auto adapter = of_option("--extension", [&] {
    return before == nullptr ? adapter_from(words.adapter)
                             : adapter_in_place_of(before->adapter, words.adapter, kept);
  });
  if (before != nullptr) kept.check();
  auto covers = remarks_on_covers_in(logbook, address.joint);
  auto test = keep_finding(logbook, amendment, {address, restated.wrench},
                           [&](const auto&, const auto& joint, const auto& wrench) {
                             auto measured =
                                 finding_from(restated, joint, address.positions.front(), wrench);
                             if (adapter) measured.adapter = *adapter;
                             return measured;
                           });
  std::ranges::move(covers, std::back_inserter(test.done.remarks));
  return test;
}

TestDone record_finding(logbook::Logbook& logbook, const logbook::Writer& writer,
                        const TestedFastener& tested, const MakeFinding& make) {
  Amendment amendment(logbook, writer, {});
  return keep_finding(logbook, amendment, tested, make);
}

}  // namespace act
