#include "paper/report_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>

#include "paper/deviation_table.h"
#include "paper/joint_facts.h"
#include "paper/joint_map.h"
#include "paper/log_table.h"
#include "paper/strip_chart.h"
#include "paper/wrench_table.h"
#include "record/address.h"
#include "report/line_text.h"
#include "report/text.h"

namespace paper {
namespace {

using finding::Verdict;

// What the job comes to in a few figures.
struct Totals {
  std::size_t fasteners = 0;
  std::size_t out = 0;
  std::size_t tested = 0;
  std::array<std::size_t, 5> verdicts{};

  explicit Totals(const finding::Survey& survey) {
    for (const auto& joint : survey.joints) {
      fasteners += joint.positions.size();
      for (const auto& position : joint.positions) {
        if (position.removal != nullptr) ++out;
        const auto* finding = position.finding();
        if (finding == nullptr) continue;
        ++tested;
        ++verdicts[static_cast<std::size_t>(finding->verdict)];
      }
    }
  }
};

void write_summary(Markup& page, const ReportContent& content) {
  const Totals totals(content.survey);
  const auto holds = static_cast<std::size_t>(
      std::ranges::count(content.audit.deviations, audit::Level::Hold, &audit::Deviation::level));
  page.element("h2", "Summary");
  page.element("p", {{"class", "caution"}},
               holds == 0 ? "No hold is open."
                          : fmt::format("Not ready: {} open. Settle what holds before anything is "
                                        "closed up.",
                                        report::counted(holds, "hold")));
  page.open("ul");
  page.element("li", fmt::format("{}, {}; {} recorded as out",
                                 report::counted(content.survey.joints.size(), "joint"),
                                 report::counted(totals.fasteners, "fastener"), totals.out));
  std::string verdicts;
  for (const auto verdict :
       {Verdict::Within, Verdict::Low, Verdict::High, Verdict::Undecided, Verdict::NotComparable}) {
    const auto count = totals.verdicts[static_cast<std::size_t>(verdict)];
    if (count == 0) continue;
    verdicts +=
        fmt::format("{}{} {}", verdicts.empty() ? ": " : ", ", count, finding::word_of(verdict));
  }
  page.element("li", fmt::format("{} tested for found torque{}", totals.tested, verdicts));
  page.element("li",
               "A found torque is the residual torque on the day of the test, never \"the "
               "original torque\"; the maker's current manual and local rules outrank it.");
  page.close();
}

std::set<int> positions_held(const audit::Audit& audit, const record::Joint& joint) {
  std::set<int> held;
  for (const auto& deviation : audit.deviations) {
    if (deviation.level == audit::Level::Hold && deviation.position &&
        record::same_code(deviation.joint, joint.code)) {
      held.insert(*deviation.position);
    }
  }
  return held;
}

// How its fasteners came out, each line of the log once.
void write_removals(Markup& page, const finding::JointState& joint) {
  std::vector<const record::Entry<record::Removal>*> removals;
  for (const auto& position : joint.positions) {
    if (position.removal == nullptr) continue;
    if (std::ranges::find(removals, position.removal) == removals.end()) {
      removals.push_back(position.removal);
    }
  }
  if (removals.empty()) {
    page.element("p", "Nothing is recorded as out.");
    return;
  }
  page.open("ul");
  for (const auto* removal : removals) {
    page.element("li", fmt::format("{} (line {}, {}, {})", report::line_text(removal->content),
                                   removal->stamp.line, removal->stamp.by,
                                   record::write_local(removal->stamp.done_at)));
  }
  page.close();
}

void write_joint(Markup& page, const finding::JointState& joint, const ReportContent& content) {
  page.open("section", {{"class", "joint"}});
  write_joint_facts(page, joint, content.job.start);
  MapContent map;
  map.held = positions_held(content.audit, *joint.joint);
  map.room = room_for(*joint.joint, {176.0, 80.0});
  draw_map(page, *joint.joint, map);
  std::vector<int> untested;
  for (const auto& position : joint.positions) {
    if (position.finding() == nullptr) untested.push_back(position.position);
  }
  page.element("h3", "Found torque against tolerance");
  draw_strip_chart(page, joint, content.job.start);
  if (!untested.empty()) page.element("p", "Not tested: " + record::write_positions(untested));
  page.element("h3", "Out");
  write_removals(page, joint);
  page.close();
}

}  // namespace

std::string report_page(const ReportContent& content, const Imprint& imprint) {
  Document document("job report", imprint);
  auto& page = document.body();
  write_summary(page, content);
  page.element("h2", "Deviations and what was decided");
  write_deviation_table(page, content.audit);
  for (const auto& joint : content.survey.joints) write_joint(page, joint, content);
  page.element("h2", "Wrenches and calibration");
  write_wrench_table(page, content.job, record::local_day(imprint.printed));
  page.element("h2", "Every line of the log");
  write_log_table(page, content.history);
  return document.take();
}

}  // namespace paper
