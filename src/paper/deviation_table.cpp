#include "paper/deviation_table.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

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
    says.push_back("NOT DONE: " + progress::in_words(*work));
  }
  if (deviation.settled == nullptr) {
    const auto open = audit::open_positions(deviation);
    const auto at = says.empty() || open.empty() ? "" : " at " + record::write_positions(open);
    says.push_back(deviation.settled_before == nullptr
                       ? "OPEN" + at
                       : fmt::format("OPEN again{}: {}. Settled before: {}", at,
                                     words::what_changed(deviation),
                                     words::decision_in_words(*deviation.settled_before)));
  }
  return fmt::format("{}", fmt::join(says, "; "));
}

}  // namespace

void write_deviation_table(Markup& page, const audit::Audit& audit) {
  if (audit.deviations.empty()) {
    page.element("p", "The audit names none.");
    return;
  }
  begin_table(page, "Deviations",
              {"level", "where", "what was found", "what to do", "what was decided"}, "deviations");
  for (const auto& deviation : audit.deviations) {
    write_row(page, {audit::word_of(deviation.level), words::place_text(deviation),
                     found_text(deviation), deviation.what_to_do, decision_text(audit, deviation)});
  }
  end_table(page);
  for (const auto* work : audit::to_do_besides(audit)) {
    page.element("p", fmt::format("Decided, not done, of {}: {}.",
                                  work->decision->content.deviation, progress::in_words(*work)));
  }
}

}  // namespace paper
