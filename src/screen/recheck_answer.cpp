#include "screen/recheck_answer.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <span>

#include "quantity/angle_text.h"
#include "quantity/length_text.h"
#include "quantity/number_text.h"
#include "screen/cut_list.h"
#include "screen/json_text.h"
#include "words/recheck_in_words.h"
#include "words/written_line.h"

namespace screen {
namespace {

constexpr std::size_t kMostLooks = 18;

using progress::DueRecheck;
using progress::TurnedStripe;

std::string kilonewtons(const fastener::PreloadBand& band) {
  return quantity::write_span(band.low.in_newtons() / 1000.0, band.high.in_newtons() / 1000.0, 2) +
         " kN";
}

std::string loss_text(const TurnedStripe& turned, const record::Recheck& recheck,
                      quantity::TorqueUnit unit) {
  std::string text = fmt::format("{} took {} of preload from each",
                                 quantity::write_exact(*recheck.turned), kilonewtons(turned.lost));
  if (!turned.had) return text + "; how much there was is not known";
  text += fmt::format("; at {}, {}, there were {}", quantity::write_rounded(*turned.at, unit),
                      fastener::name_of(turned.condition), kilonewtons(*turned.had));
  if (turned.lost.high >= turned.had->low) text += ": it may hold nothing any more";
  return text;
}

std::vector<std::string> assumptions(const TurnedStripe& turned) {
  return {
      "it turned back, and everything stayed elastic",
      fmt::format("steel bolt that stretches over {} to {} mm: what lies under the head, less up "
                  "to 1.5 d in the thread",
                  quantity::write_rounded(turned.stretch.shortest.in_millimetres()),
                  quantity::write_rounded(turned.stretch.longest.in_millimetres())),
      fmt::format("the bolt has {} to {} of the joint's stiffness (Shigley 9th ed., Table 8-12, "
                  "from memory, and a worked problem); a gasket or a softer part loses less",
                  fastener::kLeastBoltShare, fastener::kMostBoltShare),
  };
}

std::string what_to_do(const record::Recheck& recheck) {
  return fmt::format(
      "find out why it moved (a seat that settled, wear, vibration); {1} (common practice, no "
      "source): \"boltwitness tighten {0}\" leads through it, to the new stripe. "
      "A self-locking fastener that turned is replaced, not tightened (US Army TB "
      "43-0218): \"boltwitness renew\" has it",
      recheck.joint, progress::kAfterATurn);
}

nlohmann::ordered_json band_json(const fastener::PreloadBand& band) {
  return {{"low", band.low.in_newtons()}, {"high", band.high.in_newtons()}};
}

nlohmann::ordered_json due_json(const DueRecheck& due) {
  nlohmann::ordered_json row = {{"joint", due.joint->code},
                                {"positions", due.positions},
                                {"overdue", due.is_overdue},
                                {"turned_deg", nullptr},
                                {"after", nullptr},
                                {"rule", nullptr},
                                {"since", record::write_utc(due.since->done_at)},
                                {"since_what", due.since_stripe ? "stripe" : "look"},
                                {"due_at", nullptr},
                                {"due_counter", nullptr},
                                {"counter", nullptr}};
  if (due.turned) row["turned_deg"] = due.turned->in_degrees();
  if (due.after) row["after"] = record::write_exact(*due.after);
  if (due.rule != nullptr) row["rule"] = due.rule->name;
  if (due.due_at) row["due_at"] = record::write_utc(*due.due_at);
  if (due.due_reading) row["due_counter"] = record::write_exact(*due.due_reading);
  if (due.reading) row["counter"] = record::write_exact(*due.reading);
  return row;
}

}  // namespace

std::string due_in_short(const std::vector<DueRecheck>& list, const words::Page& page) {
  if (list.empty()) {
    return words::wrapped(
        "nothing is to be looked at again: no stripe whose joint still asks for it", page.width, "",
        "  ");
  }
  const auto overdue =
      static_cast<std::size_t>(std::ranges::count_if(list, &DueRecheck::is_overdue));
  const auto to_come = list.size() - overdue;
  const auto text = overdue == 0 ? words::counted(to_come, "look") + " to come"
                                 : fmt::format("{} overdue, {} to come",
                                               words::counted(overdue, "look"), to_come);
  return words::wrapped(words::strong(text, page), page.width, "", "  ");
}

std::string due_rechecks_text(const std::vector<DueRecheck>& list, record::Moment now,
                              std::string_view whole, const words::Page& page) {
  std::string text = due_in_short(list, page);
  const auto shown = whole.empty() ? list.size() : shown_of(list.size(), kMostLooks);
  for (const auto& due : std::span(list).first(shown)) {
    const auto* status = due.is_overdue ? "overdue" : "due";
    text += words::strong(words::padded_right(status, 9), page) +
            words::wrapped(words::due_in_words(due, now), page.width - 9, "", "         ");
  }
  return text + and_more(list.size() - shown, whole, page);
}

std::string due_rechecks_json(const std::vector<DueRecheck>& list) {
  auto rows = nlohmann::ordered_json::array();
  bool overdue = false;
  for (const auto& due : list) {
    rows.push_back(due_json(due));
    overdue = overdue || due.is_overdue;
  }
  return json_text(kLooksDueFormat, {{"overdue", overdue}, {"due", std::move(rows)}});
}

std::vector<std::string> turned_lines(const std::optional<TurnedStripe>& turned,
                                      const record::Recheck& recheck, quantity::TorqueUnit unit) {
  std::vector<std::string> lines;
  if (turned) {
    lines.push_back(loss_text(*turned, recheck, unit));
    for (const auto& assumption : assumptions(*turned)) lines.push_back("assumed: " + assumption);
  } else {
    lines.emplace_back("how much preload that took is not known: the joint has no --length");
  }
  lines.push_back(what_to_do(recheck));
  return lines;
}

std::string turned_text(const std::optional<TurnedStripe>& turned, const record::Recheck& recheck,
                        quantity::TorqueUnit unit, const words::Page& page) {
  const auto lines = turned_lines(turned, recheck, unit);
  std::string text;
  for (const auto& line : std::span(lines).first(lines.size() - 1)) {
    text += words::wrapped(line, page.width, "  ", "    ");
  }
  return text + words::wrapped(lines.back(), page.width, "  -> ", "     ");
}

std::string turned_json(const std::optional<TurnedStripe>& turned, const record::Recheck& recheck,
                        quantity::TorqueUnit unit, const words::WrittenLine& line) {
  nlohmann::ordered_json document = {
      {"lines", {{{"line", line.stamp.line}, {"id", line.stamp.id}, {"says", line.says}}}},
      {"preload_lost_n", nullptr},
      {"preload_had_n", nullptr},
      {"says", nullptr},
      {"assumed", nlohmann::ordered_json::array()},
      {"do", what_to_do(recheck)}};
  if (turned) {
    document["preload_lost_n"] = band_json(turned->lost);
    if (turned->had) document["preload_had_n"] = band_json(*turned->had);
    document["says"] = loss_text(*turned, recheck, unit);
    document["assumed"] = assumptions(*turned);
  }
  return json_text(kStripeTurnedFormat, std::move(document));
}

}  // namespace screen
