#include "paper/job_summary.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <span>

#include "progress/due_rechecks.h"
#include "words/deviation_in_words.h"
#include "words/recheck_in_words.h"
#include "words/text.h"

namespace paper {
namespace {

using finding::Verdict;
using progress::Step;

// What came out and what was tested, in figures.
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

// " (4 within, 1 low)"; empty where nothing was tested.
std::string verdicts_text(const Totals& totals) {
  std::string text;
  for (const auto verdict :
       {Verdict::Within, Verdict::Low, Verdict::High, Verdict::Undecided, Verdict::NotComparable}) {
    const auto count = totals.verdicts[static_cast<std::size_t>(verdict)];
    if (count == 0) continue;
    text += fmt::format("{}{} {}", text.empty() ? " (" : ", ", count, finding::word_of(verdict));
  }
  return text.empty() ? text : text + ")";
}

std::string figures(const progress::Reassembly& reassembly) {
  const Totals totals(reassembly.survey);
  const auto& steps = reassembly.progress.steps();
  return fmt::format("{}, {}: {} out, {} tested{}. {} of {} done.",
                     words::counted(reassembly.survey.joints.size(), "joint"),
                     words::counted(totals.fasteners, "fastener"), totals.out, totals.tested,
                     verdicts_text(totals),
                     std::ranges::count(steps, Step::Stands::Done, &Step::stands),
                     words::counted(steps.size(), "step"));
}

// In a few words, for the largest letters of the page.
std::string answer(const JobSummary& summary) {
  const auto& audit = summary.audit;
  if (summary.reassembly.survey.joints.empty()) return "Nothing is entered yet.";
  if (!audit.in_order()) return words::how_it_stands(audit) + ".";
  const auto points = summary.open.size() + audit::in_the_way(audit).size();
  if (points > 0) {
    return fmt::format("Not closed up: {} open. No hold is open.", words::counted(points, "point"));
  }
  return "Closed up. No hold is open.";
}

constexpr std::size_t kMostNamed = 6;

// "J05/02 (found low), J03/06 (found empty) and 2 more": those of this weight that are open.
std::string named(const audit::Audit& audit, audit::Level level) {
  std::vector<std::string> names;
  for (const auto& deviation : audit.deviations) {
    if (deviation.level != level || deviation.settled != nullptr) continue;
    names.push_back(fmt::format("{} ({})", words::place_text(deviation), deviation.rule));
  }
  const auto shown = std::min(names.size(), kMostNamed);
  auto text = fmt::format("{}", fmt::join(std::span(names).first(shown), ", "));
  if (shown < names.size()) text += fmt::format(" and {} more", names.size() - shown);
  return text;
}

// What is open besides the holds, that of the audit first.
std::vector<std::string> open_points(const JobSummary& summary) {
  std::vector<std::string> points;
  for (const auto* deviation : audit::in_the_way(summary.audit)) {
    if (deviation->holds_up()) continue;
    points.push_back(fmt::format("{} ({})", words::place_text(*deviation), deviation->rule));
  }
  for (const auto& point : summary.open) points.push_back(point.says);
  return points;
}

std::string named(const std::vector<std::string>& points) {
  const auto shown = std::min(points.size(), kMostNamed);
  auto text = fmt::format("{}", fmt::join(std::span(points).first(shown), "; "));
  if (shown < points.size()) text += fmt::format("; and {} more", points.size() - shown);
  return text;
}

std::string checks(const audit::Audit& audit) {
  const auto count = audit.open(audit::Level::Check);
  return count == 0 ? "Checks: none is open."
                    : fmt::format("Checks open: {}: {}.", count, named(audit, audit::Level::Check));
}

// The overdue first.
std::string next_looks(const progress::Reassembly& reassembly, record::Moment now) {
  const auto due = progress::due_rechecks(reassembly.job, reassembly.survey, reassembly.progress,
                                          now, std::nullopt);
  if (due.empty()) return "Next look at stripes: none is asked for.";
  std::vector<std::string> looks;
  const auto shown = std::min(due.size(), kMostNamed);
  for (const auto& look : std::span(due).first(shown)) {
    looks.push_back((look.is_overdue ? "OVERDUE " : "") + words::due_in_words(look, now));
  }
  auto text = fmt::format("Next look at stripes: {}", fmt::join(looks, "; "));
  return shown < due.size() ? text + fmt::format("; and {} more.", due.size() - shown) : text + ".";
}

}  // namespace

void write_answer(Markup& page, const JobSummary& summary) {
  const auto& [reassembly, audit, now, open] = summary;
  page.open("div", {{"class", "answer"}});
  page.element("p", {{"class", "large"}}, answer(summary));
  if (!audit.ready()) {
    page.element("p", fmt::format("Holds: {}.", named(audit, audit::Level::Hold)));
  }
  if (const auto points = open_points(summary); !points.empty()) {
    page.element("p", audit.in_order()
                          ? fmt::format("Open: {}.", named(points))
                          : fmt::format("Not closed up: {} open: {}.",
                                        words::counted(points.size(), "point"), named(points)));
  }
  page.element("p", checks(audit));
  page.element("p", next_looks(reassembly, now));
  page.element("p", figures(reassembly));
  page.close();
}

void write_still_open(Markup& page, const JobSummary& summary) {
  const auto& [reassembly, audit, now, open] = summary;
  if (open.empty() && audit.to_do.empty()) return;
  page.element("h2", "Still open").open("ul");
  for (const auto& work : audit.to_do) {
    page.element("li", fmt::format("Decided, not done: {}: {}", work.decision->content.deviation,
                                   progress::in_words(work)));
  }
  for (const auto& point : open) page.element("li", point.says);
  page.close();
}

}  // namespace paper
