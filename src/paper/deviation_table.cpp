#include "paper/deviation_table.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <string>
#include <vector>

#include "paper/grid_table.h"
#include "record/address.h"
#include "words/deviation_in_words.h"

namespace paper {
namespace {

std::string found_text(const audit::Deviation& deviation) {
  std::string text = deviation.rule + ": " + deviation.says;
  if (deviation.causes.empty()) return text;
  return text + "; " + words::cause_in_words(deviation.causes.front());
}

std::string decision_text(const audit::Audit& audit, const audit::Deviation& deviation) {
  std::vector<std::string> says = words::decisions_in_words(deviation);
  for (const auto* work : audit::to_do_of(audit, deviation)) {
    says.push_back("NOT DONE: " + words::work_in_words(*work, deviation));
  }
  if (deviation.settled == nullptr) {
    const auto open = audit::open_positions(deviation);
    const auto at = says.empty() || open.empty() ? "" : " at " + record::write_positions(open);
    const auto again = words::open_again(deviation);
    if (again.empty()) says.push_back("OPEN" + at);
    for (const auto& each : again) says.push_back("OPEN again" + each);
  }
  return fmt::format("{}", fmt::join(says, "; "));
}

bool is_closed(const audit::Audit& audit, const audit::Deviation& deviation) {
  return deviation.settled != nullptr && audit::to_do_of(audit, deviation).empty();
}

void write_open(Markup& page, const audit::Audit& audit) {
  GridTable table(page, "Open deviations",
                  {"level", "where", "what was found", "what to do", "what was decided"},
                  "deviations");
  for (const auto& deviation : audit.deviations) {
    if (is_closed(audit, deviation)) continue;
    table.row({audit::word_of(deviation.level), words::place_text(deviation), found_text(deviation),
               deviation.what_to_do, decision_text(audit, deviation)});
  }
  table.end();
}

// Its level is said last and small: nothing of it holds anything up any more.
void write_settled(Markup& page, const audit::Audit& audit) {
  GridTable table(page, "Settled deviations",
                  {"where", "what was found", "what was decided", "was a"}, "settled");
  for (const auto& deviation : audit.deviations) {
    if (!is_closed(audit, deviation)) continue;
    table.row({words::place_text(deviation), found_text(deviation), decision_text(audit, deviation),
               audit::word_of(deviation.level)});
  }
  table.end();
}

}  // namespace

void write_deviation_tables(Markup& page, const audit::Audit& audit) {
  const auto closed = std::ranges::count_if(
      audit.deviations, [&](const auto& each) { return is_closed(audit, each); });
  const auto all = std::ssize(audit.deviations);
  page.element("h2", fmt::format("Deviations that are open: {}", all - closed));
  if (closed < all) {
    write_open(page, audit);
  } else {
    page.element("p", all == 0 ? "The audit names none." : "All are settled.");
  }
  for (const auto* work : audit::to_do_besides(audit)) {
    page.element("p", fmt::format("Decided, not done, of {}: {}.",
                                  work->decision->content.deviation, progress::in_words(*work)));
  }
  if (closed == 0) return;
  page.element("h2", fmt::format("Deviations that are settled: {}", closed));
  write_settled(page, audit);
}

}  // namespace paper
