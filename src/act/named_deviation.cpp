#include "act/named_deviation.h"

#include <fmt/format.h>

#include <vector>

#include "act/lookup.h"
#include "audit/settlement.h"
#include "failure/failure.h"
#include "quantity/number_text.h"

namespace act {

const audit::Deviation& deviation_or_refuse(const audit::Audit& audit, const std::string& id) {
  if (const auto* deviation = audit::deviation_in(audit, id)) return *deviation;
  std::vector<std::string> known;
  for (const auto& each : audit.deviations) known.push_back(each.id);
  throw failure::Refusal(
      fmt::format("the audit names no {} (\"boltwitness audit --all\" shows what it names){}",
                  quantity::quoted(id), suggestion(id, known)));
}

}  // namespace act
