#include "report/audit_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "record/address.h"
#include "report/json_text.h"

namespace report {
namespace {

std::size_t count_of(const audit::Audit& audit, audit::Level level) {
  return static_cast<std::size_t>(
      std::ranges::count(audit.deviations, level, &audit::Deviation::level));
}

}  // namespace

std::string place_text(const audit::Deviation& deviation) {
  return deviation.position ? record::write_address(deviation.joint, *deviation.position)
                            : deviation.joint;
}

std::string audit_text(const audit::Audit& audit, const Page& page) {
  std::string text;
  for (const auto& deviation : audit.deviations) {
    text += strong(fmt::format("{:<6}{}  {}", audit::word_of(deviation.level),
                               place_text(deviation), deviation.rule),
                   page) +
            '\n';
    text += wrapped(deviation.says, page.width, "      ", "      ");
    text += wrapped(deviation.what_to_do, page.width, "      -> ", "         ");
  }
  if (!text.empty()) text += '\n';
  const auto holds = count_of(audit, audit::Level::Hold);
  text +=
      wrapped(fmt::format("{}, {}, {}. {}", counted(holds, "hold"),
                          counted(count_of(audit, audit::Level::Check), "check"),
                          counted(count_of(audit, audit::Level::Note), "note"),
                          holds > 0 ? "Not ready: settle the holds before anything is closed up."
                                    : "No hold is open."),
              page.width, "", "");
  return text;
}

std::string audit_json(const audit::Audit& audit) {
  auto deviations = nlohmann::ordered_json::array();
  for (const auto& deviation : audit.deviations) {
    nlohmann::ordered_json row = {
        {"id", deviation.id},        {"level", audit::word_of(deviation.level)},
        {"rule", deviation.rule},    {"joint", deviation.joint},
        {"position", nullptr},       {"says", deviation.says},
        {"do", deviation.what_to_do}};
    if (deviation.position) row["position"] = *deviation.position;
    deviations.push_back(std::move(row));
  }
  return json_text({{"ready", audit.ready()}, {"deviations", std::move(deviations)}});
}

}  // namespace report
