// Nothing that a person types can become markup, in any field, on any page.

#include "audit/audit.h"
#include "paper/labels_page.h"
#include "paper/report_page.h"
#include "paper/sequence_page.h"
#include "paper/sheet_page.h"
#include "support/html_check.h"
#include "support/job_builder.h"
#include "support/occurrences.h"
#include "support/pictures.h"
#include "support/property.h"
#include "support/report_text.h"

namespace nasty_words_test {

namespace {

constexpr const char* kNasty = "<b>&amp;'\"</style><!-- --></script><svg/onload=alert(1)>";

// An adapter that an earlier version kept in words alone.
record::ThroughAdapter in_words(const std::string& words, double torque_ratio = 1.0) {
  record::AdapterTold told;
  told.words = words;
  return {torque_ratio, std::make_shared<const record::AdapterTold>(std::move(told))};
}

// What goes back, said in these words.
void put_back(record::Job& job, const std::string& words) {
  auto stamp = job.findings.back().stamp;
  stamp.by = words;
  const auto add = [&](auto& entries, auto content) {
    stamp.line += 1;
    stamp.done_at += std::chrono::minutes(1);
    stamp.id.back() = static_cast<char>('a' + stamp.line % 6);
    entries.push_back({stamp, std::move(content)});
  };
  const auto litre = quantity::Volume::millilitres(1000);
  add(job.fluids, record::FluidAmount{words, record::FluidMove::Drained, litre, words, words});
  add(job.items, record::CountedItem{"CL1", words, 6, "J06"});
  add(job.hold_points, record::HoldPoint{"HV", words, std::nullopt, {"J06"}});
  add(job.hold_point_steps, record::HoldPointStep{"HV", record::HoldPointMove::Passed, words});
  add(job.renewals, record::Renewal{"J06", {1, 2}});
  record::Tightening left_out;
  left_out.joint = "J06";
  left_out.positions = {1, 2};
  left_out.pass = 1;
  left_out.skipped_why = words;
  add(job.tightenings, left_out);
  auto done = left_out;
  done.positions = {3};
  done.skipped_why.clear();
  done.wrench = words;
  done.setting = 80.0;
  done.adapter = in_words(words);
  add(job.tightenings, done);
  record::FinalStripe stripe;
  stripe.joint = "J06";
  stripe.positions = {3};
  add(job.stripes, stripe);
  record::Photograph photograph;
  photograph.joint = "J06";
  photograph.note = words;
  photograph.format = record::PictureFormat::Png;
  add(job.photographs, photograph);
  photograph.joint.clear();
  photograph.deviation = words;
  add(job.photographs, photograph);
}

// A job with these words wherever a person types words.
record::Job job_with(const std::string& words) {
  JobBuilder builder;
  builder.wrench().joint("J06", 4).specified("J06").out("J06/1-3").found("J06/1", "70s 75s 80o");
  auto job = builder.job();
  job.start.machine = words;
  job.start.tolerance_typed = words;
  auto& wrench = job.wrenches.front().content;
  wrench.serial = words;
  wrench.scale_typed = words;
  wrench.graduation_typed = words;
  auto& joint = job.joints.front().content;
  joint.holds = words;
  joint.grade = words;
  joint.length = quantity::Length::millimetres(90);
  joint.length_typed = words;
  joint.final_when = words;
  joint.critical = true;
  auto& specified = job.specifications.front().content;
  specified.typed = words;
  specified.source = words;
  auto& removal = job.removals.front();
  removal.content.bag = words;
  removal.content.note = words;
  removal.content.other_grade = words;
  removal.stamp.by = words;
  job.findings.front().content.adapter = in_words(words);
  job.findings.front().content.readings_typed = words;
  put_back(job, words);
  return job;
}

// The job's lines, as the log has them, the last one struck with these words.
std::vector<record::HistoryLine> history_of(const record::Job& job, const std::string& words) {
  std::vector<record::HistoryLine> lines;
  const auto add = [&](const auto& entries) {
    for (const auto& entry : entries) lines.push_back({entry.stamp, entry.content, {}, {}});
  };
  add(job.wrenches);
  add(job.joints);
  add(job.specifications);
  add(job.removals);
  add(job.findings);
  add(job.fluids);
  add(job.items);
  add(job.hold_points);
  add(job.hold_point_steps);
  add(job.renewals);
  add(job.tightenings);
  add(job.stripes);
  add(job.photographs);
  record::Disposition decision;
  decision.deviation = decision.judged_on = decision.reason = decision.second_person = words;
  lines.push_back({lines.back().stamp, decision, {}, {}});
  lines.back().struck_by = lines.front().stamp;
  lines.back().struck_by->by = words;
  lines.back().struck_why = words;
  return lines;
}

std::vector<std::string> pages_with(const std::string& words) {
  const progress::Reassembly now(job_with(words), record::read_day("2026-06-02"),
                                 in_words(words, 1.1));
  const auto audit = audit::run({now.job, now.survey, record::read_moment("2026-06-02T08:00:00Z")});
  const auto joints = std::vector<const finding::JointState*>{&now.survey.joints.front()};
  const auto history = history_of(now.job, words);
  const paper::Imprint imprint{words, {}, 9};
  return {
      paper::sheet_page(joints, imprint),
      paper::sequence_page({now.job, now.survey, now.plan, now.progress, audit}, imprint),
      report_page({now, audit, history, [](const auto&) { return plain_png(2, 2, 9); }}, imprint),
      paper::labels_page(joints, paper::LabelFor::Bag, imprint)};
}

}  // namespace

TEST_CASE("words that look like markup are shown as typed on every page", "[paper]") {
  for (const auto& page : pages_with(kNasty)) {
    CHECK(fault_of_page(page) == "");
    CHECK_THAT(text_of_page(page), ContainsSubstring(kNasty));
    CHECK(page.find("<b>") == std::string::npos);
  }
}

TEST_CASE("a label says all that was typed, however long", "[paper]") {
  // As long as each may be, in words and in one piece.
  for (const std::string part : {"bearing cover of the second stage, ", "Lagerdeckel"}) {
    std::string holds;
    while (holds.size() + part.size() <= 200) holds += part;
    auto job = job_with("bag");
    job.joints.front().content.holds = holds;
    for (auto& removal : job.removals) removal.content.bag = holds.substr(0, 80);
    const auto survey = finding::survey(job);
    const auto page =
        paper::labels_page({&survey.joints.front()}, paper::LabelFor::Position, {holds, {}, 9});
    CHECK(fault_of_page(page) == "");
    const auto text = text_of_page(page);
    CHECK(occurrences(text, holds) >= 2);  // what it holds, and the machine
    CHECK_THAT(text, ContainsSubstring("bag " + holds.substr(0, 80)));
    CHECK(text.find("…") == std::string::npos);
  }
}

TEST_CASE("no words break a page", "[paper]") {
  holds_always("every page is sound whatever was typed", [](const std::string& words) {
    for (const auto& page : pages_with(words + kNasty + words)) {
      RC_ASSERT(fault_of_page(page) == "");
    }
  });
}

TEST_CASE("the same records give the same bytes", "[paper]") {
  CHECK(pages_with("GB-1") == pages_with("GB-1"));
}

}  // namespace nasty_words_test
