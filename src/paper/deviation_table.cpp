#include "paper/deviation_table.h"

#include "paper/grid_table.h"
#include "report/audit_report.h"

namespace paper {

void write_deviation_table(Markup& page, const audit::Audit& audit) {
  if (audit.deviations.empty()) {
    page.element("p", "The audit names none.");
    return;
  }
  begin_table(page, "Deviations", {"level", "where", "what was found", "what to do"}, "deviations");
  for (const auto& deviation : audit.deviations) {
    write_row(page, {audit::word_of(deviation.level), report::place_text(deviation),
                     deviation.rule + ": " + deviation.says, deviation.what_to_do});
  }
  end_table(page);
}

}  // namespace paper
