#include "paper/deviation_table.h"

#include <fmt/format.h>

#include "paper/grid_table.h"
#include "words/deviation_in_words.h"

namespace paper {
namespace {

std::string found_text(const audit::Deviation& deviation) {
  std::string text = deviation.rule + ": " + deviation.says;
  if (deviation.causes.empty()) return text;
  return text + "; " + words::cause_in_words(deviation.causes.front());
}

std::string decision_text(const audit::Deviation& deviation) {
  if (deviation.settled != nullptr) return words::decision_in_words(*deviation.settled);
  if (deviation.settled_before == nullptr) return "OPEN";
  return fmt::format("OPEN again: {}. Settled before: {}", words::what_changed(deviation),
                     words::decision_in_words(*deviation.settled_before));
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
                     found_text(deviation), deviation.what_to_do, decision_text(deviation)});
  }
  end_table(page);
}

}  // namespace paper
