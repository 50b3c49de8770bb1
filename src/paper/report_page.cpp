#include "paper/report_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "paper/deviation_table.h"
#include "paper/done_by.h"
#include "paper/found_result.h"
#include "paper/goes_back_tables.h"
#include "paper/job_summary.h"
#include "paper/joint_facts.h"
#include "paper/joint_log.h"
#include "paper/joint_rows.h"
#include "paper/strip_chart.h"
#include "paper/tick_box.h"
#include "paper/wrench_table.h"
#include "progress/due_rechecks.h"
#include "record/address.h"
#include "words/recheck_in_words.h"
#include "words/text.h"

namespace paper {
namespace {

// Its heading is what the tests came to.
void write_findings(Markup& page, const finding::JointState& joint) {
  const auto unit = joint.unit;
  page.element("h3",
               fmt::format("Found torque, {}: {}", joint.joint->code, found_result(joint, unit)));
  draw_strip_chart(page, joint);
  std::vector<DoneAt> tested;
  std::vector<int> untested;
  for (const auto& position : joint.positions) {
    if (const auto* finding = position.finding()) {
      tested.push_back({position.position, &finding->entry->stamp});
    } else {
      untested.push_back(position.position);
    }
  }
  for (const auto& line : done_by(tested)) page.element("p", "Tested: " + line);
  if (!untested.empty() && !tested.empty()) {
    page.element("p", "Not tested: " + record::write_positions(untested));
  }
}

void write_work(Markup& page, const std::string& code, const JointLog& log) {
  page.element("h3", "Out and back, " + code);
  const auto rows = log.rows_of(code);
  if (rows.empty()) {
    page.element("p", "Nothing is recorded as out.");
  } else {
    write_log_rows(page, "Out and back, " + code, rows);
  }
}

// The page under way, and where its pieces go.
struct ReportPage {
  Document& document;
  const std::function<void(std::string_view)>& take;
};

using PhotographEntry = record::Entry<record::Photograph>;

void write_photograph(Markup& page, const PhotographEntry& entry, const ReportContent& content) {
  const auto& [stamp, photograph] = entry;
  const auto subject = record::subject_of(photograph);
  page.open("figure");
  page.picture(record::media_type_of(photograph.format), content.bytes_of(photograph),
               fmt::format("photograph of {}{}", subject,
                           photograph.note.empty() ? "" : ": " + photograph.note));
  page.element("figcaption", fmt::format("{}{}. {}, {}, line {}", subject,
                                         photograph.note.empty() ? "" : ": " + photograph.note,
                                         stamp.by, record::write_local(stamp.done_at), stamp.line));
  page.close();
}

void write_photographs(const ReportPage& report, const ReportContent& content,
                       std::string_view title, const std::vector<const PhotographEntry*>& entries) {
  if (entries.empty()) return;
  auto& page = report.document.body();
  page.element("h3", title);
  if (!content.bytes_of) {
    page.element("p", fmt::format("{} left out: \"boltwitness photo\" lists them.",
                                  words::counted(entries.size(), "photograph")));
    return;
  }
  page.open("div", {{"class", "photographs"}});
  for (const auto* entry : entries) {
    write_photograph(page, *entry, content);
    report.take(report.document.take_so_far());
  }
  page.close();
}

std::vector<const PhotographEntry*> photographs_of(const record::Job& job, std::string_view joint) {
  std::vector<const PhotographEntry*> entries;
  for (const auto& entry : job.photographs) {
    if (record::same_code(entry.content.joint, joint)) entries.push_back(&entry);
  }
  return entries;
}

// Those of the machine, and of a joint that is not there any more.
std::vector<const PhotographEntry*> photographs_of_none(const record::Job& job) {
  std::vector<const PhotographEntry*> entries;
  for (const auto& entry : job.photographs) {
    if (record::joint_in(job, entry.content.joint) == nullptr) entries.push_back(&entry);
  }
  return entries;
}

void write_joint(const ReportPage& report, const finding::JointState& joint,
                 const ReportContent& content, const JointLog& log) {
  auto& page = report.document.body();
  page.open("section", {{"class", "joint"}});
  JointTop top;
  top.map.held = audit::positions_held(content.audit, *joint.joint);
  write_joint_top(page, joint, std::move(top));
  write_findings(page, joint);
  write_work(page, joint.joint->code, log);
  const auto& code = joint.joint->code;
  write_photographs(report, content, "Photographs, " + code,
                    photographs_of(content.reassembly.job, code));
  page.close();
}

void write_due_looks(Markup& page, const progress::Reassembly& reassembly, record::Moment now) {
  const auto due = progress::due_rechecks(reassembly.job, reassembly.survey, reassembly.progress,
                                          now, std::nullopt);
  if (due.empty()) return;
  page.element("h2", "To be looked at again").open("ul");
  for (const auto& each : due) {
    page.element("li", (each.is_overdue ? "overdue: " : "") + words::due_in_words(each, now));
  }
  page.close();
}

bool has_tests(const finding::Survey& survey) {
  return std::ranges::any_of(survey.joints, [](const finding::JointState& joint) {
    return std::ranges::any_of(joint.positions, [](const finding::PositionState& position) {
      return position.finding() != nullptr;
    });
  });
}

void write_log(Markup& page, const std::vector<record::HistoryLine>& history) {
  std::vector<LogRow> rows;
  rows.reserve(history.size());
  for (const auto& line : history) rows.push_back(log_row(line));
  page.element("h2", "Every line of the log");
  write_log_rows(page, "Log", rows);
}

}  // namespace

void write_report(const ReportContent& content, const Imprint& imprint,
                  const std::function<void(std::string_view piece)>& take) {
  const auto& reassembly = content.reassembly;
  const auto& audit = content.audit;
  const auto& job = reassembly.job;
  const bool shows_pictures = content.bytes_of && !job.photographs.empty();
  Document document("job report", imprint, shows_pictures ? Pictures::InThePage : Pictures::None);
  const ReportPage report{document, take};
  auto& page = document.body();
  const JobSummary summary{reassembly, audit, imprint.printed,
                           progress::open_list(reassembly, imprint.printed)};
  write_answer(page, summary);
  if (!reassembly.survey.joints.empty()) {
    write_joint_rows(page, reassembly);
    write_bag_counts(page, reassembly);
    write_sign_line(page, "Closed up and read through by");
    write_sign_line(page, "Second person");
  }
  page.element("p",
               "A found torque is the residual torque on the day of the test, never \"the "
               "original torque\"; the maker's current manual and local rules outrank it.");
  write_still_open(page, summary);
  write_deviation_tables(page, audit);
  write_hold_point_table(page, job, imprint.printed);
  write_fluid_table(page, job);
  write_item_table(page, job);
  write_renewal_table(page, job, reassembly.survey);
  const JointLog log(content.history);
  if (has_tests(reassembly.survey)) draw_chart_legend(page);
  for (const auto& joint : reassembly.survey.joints) {
    write_joint(report, joint, content, log);
    if (content.joint_written) content.joint_written();
  }
  write_due_looks(page, reassembly, imprint.printed);
  write_photographs(report, content, "Photographs of the machine", photographs_of_none(job));
  page.element("h2", "Wrenches and calibration");
  write_wrench_table(page, job, record::local_day(imprint.printed));
  write_log(page, content.history);
  take(document.take());
}

}  // namespace paper
