#include "paper/job_summary.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "progress/open_list.h"
#include "words/deviation_in_words.h"
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

// ": 4 within, 1 low"; empty where nothing was tested.
std::string verdicts_text(const Totals& totals) {
  std::string text;
  for (const auto verdict :
       {Verdict::Within, Verdict::Low, Verdict::High, Verdict::Undecided, Verdict::NotComparable}) {
    const auto count = totals.verdicts[static_cast<std::size_t>(verdict)];
    if (count == 0) continue;
    text += fmt::format("{}{} {}", text.empty() ? ": " : ", ", count, finding::word_of(verdict));
  }
  return text;
}

void write_figures(Markup& page, const progress::Reassembly& reassembly) {
  const Totals totals(reassembly.survey);
  const auto& steps = reassembly.progress.steps();
  page.open("ul");
  page.element("li", fmt::format("{}, {}; {} recorded as out",
                                 words::counted(reassembly.survey.joints.size(), "joint"),
                                 words::counted(totals.fasteners, "fastener"), totals.out));
  page.element("li",
               fmt::format("{} tested for found torque{}", totals.tested, verdicts_text(totals)));
  page.element("li", fmt::format("{} of {} of the plan done",
                                 std::ranges::count(steps, Step::Stands::Done, &Step::stands),
                                 words::counted(steps.size(), "step")));
  page.element("li",
               "A found torque is the residual torque on the day of the test, never \"the "
               "original torque\"; the maker's current manual and local rules outrank it.");
  page.close();
}

}  // namespace

void write_job_summary(Markup& page, const progress::Reassembly& reassembly,
                       const audit::Audit& audit, record::Moment now) {
  const auto holds = audit.open(audit::Level::Hold);
  const auto open = progress::open_list(reassembly, now);
  page.element("h2", "Summary");
  page.element(
      "p", {{"class", "caution"}},
      fmt::format("{} {}",
                  holds == 0 && !audit.to_do.empty() ? words::how_it_stands(audit) + "."
                  : holds == 0
                      ? std::string("No hold is open.")
                      : fmt::format("Settle what holds: {} open.", words::counted(holds, "hold")),
                  open.empty() && audit.to_do.empty()
                      ? std::string(holds == 0 ? "Put back: nothing is left to do."
                                               : "Put back: every pass is done and striped.")
                      : fmt::format("Put back: {} open.",
                                    words::counted(open.size() + audit.to_do.size(), "point"))));
  write_figures(page, reassembly);
  if (open.empty() && audit.to_do.empty()) return;
  page.element("h3", "Still open").open("ul");
  for (const auto& work : audit.to_do) {
    page.element("li", fmt::format("Decided, not done: {}: {}", work.decision->content.deviation,
                                   progress::in_words(work)));
  }
  for (const auto& point : open) page.element("li", point.says);
  page.close();
}

}  // namespace paper
