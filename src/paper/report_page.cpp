#include "paper/report_page.h"

#include <set>

#include "paper/count_tables.h"
#include "paper/deviation_table.h"
#include "paper/done_by.h"
#include "paper/goes_back_tables.h"
#include "paper/job_summary.h"
#include "paper/joint_facts.h"
#include "paper/joint_log.h"
#include "paper/joint_map.h"
#include "paper/strip_chart.h"
#include "paper/wrench_table.h"
#include "progress/due_rechecks.h"
#include "record/address.h"
#include "words/recheck_in_words.h"

namespace paper {
namespace {

constexpr MapRoom kReportMapRoom{176.0, 62.0};

std::set<int> positions_held(const audit::Audit& audit, const record::Joint& joint) {
  std::set<int> held;
  for (const auto& deviation : audit.deviations) {
    if (!deviation.holds_up() || !record::same_code(deviation.joint, joint.code)) continue;
    const auto open = audit::open_positions(deviation);
    held.insert(open.begin(), open.end());
  }
  return held;
}

void write_findings(Markup& page, const finding::JointState& joint,
                    const record::LogbookStart& start) {
  page.element("h3", "Found torque against tolerance");
  draw_strip_chart(page, joint, start);
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
  if (!untested.empty()) page.element("p", "Not tested: " + record::write_positions(untested));
}

void write_work(Markup& page, const std::string& code, const JointLog& log) {
  page.element("h3", "Out and back");
  const auto rows = log.rows_of(code);
  if (rows.empty()) {
    page.element("p", "Nothing is recorded as out.");
  } else {
    write_log_rows(page, "Out and back, " + code, rows);
  }
}

void write_joint(Markup& page, const finding::JointState& joint, const ReportContent& content,
                 const JointLog& log) {
  const auto& start = content.reassembly.job.start;
  page.open("section", {{"class", "joint"}});
  page.open("div", {{"class", "together"}});
  write_joint_facts(page, joint);
  MapContent map;
  map.held = positions_held(content.audit, *joint.joint);
  map.room = room_for(*joint.joint, kReportMapRoom);
  draw_map(page, *joint.joint, map);
  page.close();
  write_findings(page, joint, start);
  write_work(page, joint.joint->code, log);
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

void write_log(Markup& page, const std::vector<record::HistoryLine>& history) {
  std::vector<LogRow> rows;
  rows.reserve(history.size());
  for (const auto& line : history) rows.push_back(log_row(line));
  page.element("h2", "Every line of the log");
  write_log_rows(page, "Log", rows);
}

}  // namespace

std::string report_page(const ReportContent& content, const Imprint& imprint) {
  const auto& [reassembly, audit, history] = content;
  const auto& job = reassembly.job;
  Document document("job report", imprint);
  auto& page = document.body();
  write_job_summary(page, reassembly, audit, imprint.printed);
  page.element("h2", "Deviations and what was decided");
  write_deviation_table(page, audit);
  write_hold_point_table(page, job, imprint.printed);
  write_fluid_table(page, job);
  write_item_table(page, job);
  write_renewal_table(page, job, reassembly.survey);
  page.element("h2", "Counts");
  write_joint_counts(page, reassembly);
  write_bag_counts(page, reassembly);
  const JointLog log(history);
  for (const auto& joint : reassembly.survey.joints) write_joint(page, joint, content, log);
  write_due_looks(page, reassembly, imprint.printed);
  page.element("h2", "Wrenches and calibration");
  write_wrench_table(page, job, record::local_day(imprint.printed));
  write_log(page, history);
  return document.take();
}

}  // namespace paper
