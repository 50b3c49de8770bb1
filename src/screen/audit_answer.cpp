#include "screen/audit_answer.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <span>

#include "record/address.h"
#include "screen/cut_list.h"
#include "screen/json_text.h"
#include "words/deviation_in_words.h"

namespace screen {
namespace {

constexpr std::size_t kMostDeviations = 20;
constexpr std::size_t kMostInShort = 8;

nlohmann::ordered_json decision_json(const record::Entry<record::Disposition>* entry) {
  if (entry == nullptr) return nullptr;
  const auto& [stamp, disposition] = *entry;
  nlohmann::ordered_json json = {{"as", record::word_of(disposition.decision)},
                                 {"why", disposition.reason},
                                 {"by", stamp.by},
                                 {"with", nullptr},
                                 {"at", record::write_utc(stamp.done_at)},
                                 {"line", stamp.line},
                                 {"judged_on", disposition.judged_on},
                                 {"done", nullptr}};
  if (!disposition.done.empty()) json["done"] = disposition.done;
  if (!disposition.second_person.empty()) json["with"] = disposition.second_person;
  return json;
}

// "settled: 2 (audit --all shows them)"; empty where none is.
std::string settled_remark(std::size_t settled, bool shown) {
  if (settled == 0) return {};
  return fmt::format(" {} settled{}.", settled, shown ? "" : " (audit --all)");
}

}  // namespace

std::string deviation_text(const audit::Audit& audit, const audit::Deviation& deviation,
                           bool all_causes, const words::Page& page) {
  const auto to_do = audit::to_do_of(audit, deviation);
  const auto* state =
      deviation.settled == nullptr
          ? (deviation.level == audit::Level::Check && deviation.is_to_settle() ? "  TO SETTLE"
                                                                                : "")
      : to_do.empty() ? "  SETTLED"
                      : "  DECIDED, NOT DONE";
  std::string text =
      words::strong(fmt::format("{:<6}{}{}", audit::word_of(deviation.level), deviation.id, state),
                    page) +
      '\n';
  text += words::wrapped(deviation.says, page.width, "      ", "      ");
  for (const auto& decision : words::decisions_in_words(deviation)) {
    text += words::wrapped(decision, page.width, "      == ", "         ");
  }
  for (const auto* work : to_do) {
    const bool holds = std::ranges::find(deviation.parts, work->decision, &audit::Part::settled) !=
                       deviation.parts.end();
    text += words::wrapped(fmt::format("to do{}: {}", holds ? "" : " unless it is decided anew",
                                       words::work_in_words(*work, deviation)),
                           page.width, "      -> ", "         ");
  }
  if (deviation.settled != nullptr) return text;
  const auto open = audit::open_positions(deviation);
  if (!open.empty() && open.size() < deviation.parts.size()) {
    text +=
        words::wrapped("open at " + record::write_positions(open), page.width, "      ", "      ");
  }
  for (const auto& cause : deviation.causes) {
    text += words::wrapped(words::cause_in_words(cause), page.width, "      ", "        ");
    if (!all_causes) break;
  }
  text += words::wrapped(deviation.what_to_do, page.width, "      -> ", "         ");
  for (const auto& again : words::open_again(deviation)) {
    text += words::wrapped("OPEN AGAIN" + again, page.width, "      ", "      ");
  }
  return text;
}

std::string audit_in_short(const audit::Audit& audit, const words::Page& page) {
  std::vector<std::string> ids;
  for (const auto* deviation : audit::in_the_way(audit)) ids.push_back(deviation->id);
  for (const auto& work : audit.to_do) ids.push_back(work.decision->content.deviation);
  std::string text = words::how_it_stands(audit);
  const auto shown = shown_of(ids.size(), kMostInShort);
  if (!ids.empty()) text += fmt::format(": {}", fmt::join(std::span(ids).first(shown), ", "));
  if (shown < ids.size()) text += fmt::format(" and {} more above", ids.size() - shown);
  return words::wrapped(text, page.width, "", "  ");
}

std::string audit_text(const audit::Audit& audit, const AuditShows& shows,
                       const words::Page& page) {
  std::string text = words::strong(words::how_it_stands(audit), page) + '\n';
  std::size_t settled = 0;
  std::size_t told = 0;
  for (const auto& deviation : audit.deviations) {
    const bool is_done = deviation.settled != nullptr && audit::to_do_of(audit, deviation).empty();
    if (is_done) ++settled;
    if (is_done && !shows.settled_too) continue;
    if (++told > kMostDeviations && !shows.whole.empty()) continue;
    text += deviation_text(audit, deviation, shows.all_causes, page);
  }
  if (told > kMostDeviations && !shows.whole.empty()) {
    text += and_more(told - kMostDeviations, shows.whole, page);
  }
  for (const auto* work : audit::to_do_besides(audit)) {
    text += words::wrapped(fmt::format("to do of {}: {}", work->decision->content.deviation,
                                       progress::in_words(*work)),
                           page.width, "", "      ");
  }
  text += '\n';
  const auto holds = audit.open(audit::Level::Hold);
  const auto to_settle = audit::in_the_way(audit).size() - holds;
  text += words::wrapped(
      fmt::format(
          "{}, {}{}, {}. {}{}{}", words::counted(holds, "hold"),
          words::counted(audit.open(audit::Level::Check), "check"),
          to_settle == 0 ? "" : fmt::format(" ({} to settle before it is finished)", to_settle),
          words::counted(audit.open(audit::Level::Note), "note"),
          holds > 0 ? "Not ready: settle the holds before anything is closed up: boltwitness "
                      "settle ID --as "
                      "DECISION --why TEXT (settle --help)."
          : audit.to_do.empty() ? "No hold is open."
                                : "What was decided has to be done first.",
          audit.to_do.empty() ? "" : fmt::format(" {} decided and not done.", audit.to_do.size()),
          settled_remark(settled, shows.settled_too)),
      page.width, "", "");
  return text;
}

nlohmann::ordered_json deviation_json(const audit::Audit& audit,
                                      const audit::Deviation& deviation) {
  nlohmann::ordered_json json = {{"id", deviation.id},
                                 {"level", audit::word_of(deviation.level)},
                                 {"to_settle", deviation.is_to_settle()},
                                 {"rule", deviation.rule},
                                 {"joint", deviation.joint},
                                 {"position", nullptr},
                                 {"says", deviation.says},
                                 {"do", deviation.what_to_do},
                                 {"settled", decision_json(deviation.settled)},
                                 {"settled_before", decision_json(deviation.settled_before)},
                                 {"lines_since", deviation.lines_since},
                                 {"positions", deviation.positions},
                                 {"done", nullptr}};
  if (deviation.position) json["position"] = *deviation.position;
  if (deviation.settled != nullptr) json["done"] = audit::to_do_of(audit, deviation).empty();
  json["parts"] = nlohmann::ordered_json::array();
  for (const auto& part : deviation.parts) {
    nlohmann::ordered_json of_part = {{"id", part.id},
                                      {"position", nullptr},
                                      {"settled", decision_json(part.settled)},
                                      {"settled_before", decision_json(part.settled_before)}};
    if (part.position) of_part["position"] = *part.position;
    json["parts"].push_back(std::move(of_part));
  }
  json["causes"] = nlohmann::ordered_json::array();
  for (const auto& cause : deviation.causes) {
    json["causes"].push_back(
        {{"weight", audit::word_of(cause.weight)}, {"cause", cause.says}, {"fact", cause.fact}});
  }
  return json;
}

nlohmann::ordered_json to_do_json(const audit::Audit& audit) {
  auto to_do = nlohmann::ordered_json::array();
  for (const auto& work : audit.to_do) {
    const auto& [stamp, disposition] = *work.decision;
    to_do.push_back({{"deviation", disposition.deviation},
                     {"joint", disposition.joint},
                     {"as", record::word_of(disposition.decision)},
                     {"positions", work.open},
                     {"line", stamp.line}});
  }
  return to_do;
}

std::string audit_json(const audit::Audit& audit) {
  auto deviations = nlohmann::ordered_json::array();
  for (const auto& deviation : audit.deviations)
    deviations.push_back(deviation_json(audit, deviation));
  return json_text(kAuditFormat, {{"ready", audit.ready()},
                                  {"in_order", audit.in_order()},
                                  {"deviations", std::move(deviations)},
                                  {"to_do", to_do_json(audit)}});
}

}  // namespace screen
