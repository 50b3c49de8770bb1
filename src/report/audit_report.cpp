#include "report/audit_report.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <nlohmann/json.hpp>

#include "record/address.h"
#include "report/json_text.h"

namespace report {
namespace {

nlohmann::ordered_json decision_json(const record::Entry<record::Disposition>* entry) {
  if (entry == nullptr) return nullptr;
  const auto& [stamp, disposition] = *entry;
  nlohmann::ordered_json json = {{"as", record::word_of(disposition.decision)},
                                 {"why", disposition.reason},
                                 {"by", stamp.by},
                                 {"with", nullptr},
                                 {"at", record::write_utc(stamp.done_at)},
                                 {"line", stamp.line},
                                 {"judged_on", disposition.judged_on}};
  if (!disposition.second_person.empty()) json["with"] = disposition.second_person;
  return json;
}

// "settled: 2 (audit --all shows them)"; empty where none is.
std::string settled_remark(std::size_t settled, bool shown) {
  if (settled == 0) return {};
  return fmt::format(" {} settled{}.", settled, shown ? "" : " (audit --all)");
}

}  // namespace

std::string what_changed(const audit::Deviation& deviation) {
  std::string text;
  if (!deviation.lines_since.empty()) {
    text = fmt::format("line {} came after the decision", fmt::join(deviation.lines_since, ", "));
  }
  const auto& judged_on = deviation.settled_before->content.judged_on;
  if (judged_on != deviation.says) {
    text += fmt::format("{}it was judged on \"{}\"", text.empty() ? "" : "; ", judged_on);
  }
  return text.empty() ? "a line that the decision rested on has been struck" : text;
}

std::string decision_in_words(const record::Entry<record::Disposition>& entry) {
  const auto& [stamp, disposition] = entry;
  return fmt::format("{} by {}{}, {} (line {}): {}", record::word_of(disposition.decision),
                     stamp.by,
                     disposition.second_person.empty() ? "" : " with " + disposition.second_person,
                     record::write_local(stamp.done_at), stamp.line, disposition.reason);
}

std::string place_text(const audit::Deviation& deviation) {
  return deviation.position ? record::write_address(deviation.joint, *deviation.position)
                            : deviation.joint;
}

std::string cause_in_words(const audit::Cause& cause) {
  return fmt::format("{}: {} ({})", audit::word_of(cause.weight), cause.says, cause.fact);
}

std::string deviation_text(const audit::Deviation& deviation, bool all_causes, const Page& page) {
  const auto* settled = deviation.settled;
  const auto* before = deviation.settled_before;
  std::string text = strong(fmt::format("{:<6}{}{}", audit::word_of(deviation.level), deviation.id,
                                        settled != nullptr ? "  SETTLED" : ""),
                            page) +
                     '\n';
  text += wrapped(deviation.says, page.width, "      ", "      ");
  if (settled != nullptr) {
    return text + wrapped(decision_in_words(*settled), page.width, "      == ", "         ");
  }
  for (const auto& cause : deviation.causes) {
    text += wrapped(cause_in_words(cause), page.width, "      ", "        ");
    if (!all_causes) break;
  }
  text += wrapped(deviation.what_to_do, page.width, "      -> ", "         ");
  if (before != nullptr) {
    text += wrapped(fmt::format("OPEN AGAIN: {}. It was settled {}", what_changed(deviation),
                                decision_in_words(*before)),
                    page.width, "      ", "      ");
  }
  return text;
}

std::string audit_text(const audit::Audit& audit, const AuditShows& shows, const Page& page) {
  std::string text;
  std::size_t settled = 0;
  for (const auto& deviation : audit.deviations) {
    if (deviation.settled != nullptr) ++settled;
    if (deviation.settled == nullptr || shows.settled_too) {
      text += deviation_text(deviation, shows.all_causes, page);
    }
  }
  if (!text.empty()) text += '\n';
  const auto holds = audit.open(audit::Level::Hold);
  text +=
      wrapped(fmt::format("{}, {}, {}. {}{}", counted(holds, "hold"),
                          counted(audit.open(audit::Level::Check), "check"),
                          counted(audit.open(audit::Level::Note), "note"),
                          holds > 0 ? "Not ready: settle the holds before anything is closed up."
                                    : "No hold is open.",
                          settled_remark(settled, shows.settled_too)),
              page.width, "", "");
  return text;
}

nlohmann::ordered_json deviation_json(const audit::Deviation& deviation) {
  nlohmann::ordered_json json = {{"id", deviation.id},
                                 {"level", audit::word_of(deviation.level)},
                                 {"rule", deviation.rule},
                                 {"joint", deviation.joint},
                                 {"position", nullptr},
                                 {"says", deviation.says},
                                 {"do", deviation.what_to_do},
                                 {"settled", decision_json(deviation.settled)},
                                 {"settled_before", decision_json(deviation.settled_before)},
                                 {"lines_since", deviation.lines_since}};
  if (deviation.position) json["position"] = *deviation.position;
  json["causes"] = nlohmann::ordered_json::array();
  for (const auto& cause : deviation.causes) {
    json["causes"].push_back(
        {{"weight", audit::word_of(cause.weight)}, {"cause", cause.says}, {"fact", cause.fact}});
  }
  return json;
}

std::string audit_json(const audit::Audit& audit) {
  auto deviations = nlohmann::ordered_json::array();
  for (const auto& deviation : audit.deviations) deviations.push_back(deviation_json(deviation));
  return json_text({{"ready", audit.ready()}, {"deviations", std::move(deviations)}});
}

}  // namespace report
