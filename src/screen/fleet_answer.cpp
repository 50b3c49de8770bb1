#include "screen/fleet_answer.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <span>

#include "quantity/number_text.h"
#include "record/address.h"
#include "record/moment.h"
#include "screen/cut_list.h"
#include "screen/json_text.h"
#include "screen/table.h"

namespace screen {
namespace {

constexpr std::size_t kMostLogbooks = 20;

using nlohmann::ordered_json;

bool was_refused(const LoadedLogbook& logbook) { return !logbook.why.empty(); }

std::size_t count_new_lines(const std::vector<LoadedLogbook>& logbooks) {
  std::size_t lines = 0;
  for (const auto& logbook : logbooks) lines += logbook.new_lines;
  return lines;
}

std::string signed_rounded(double value) {
  return (value < 0 ? "-" : "") + quantity::write_rounded(value < 0 ? -value : value);
}

// A value as a cell has it alone; empty for null.
std::string alone(const ordered_json& value) {
  if (value.is_null()) return {};
  if (value.is_string()) return value.get<std::string>();
  return signed_rounded(value.get<double>());
}

std::string torque(const ordered_json& value, const ordered_json& uncertainty) {
  if (uncertainty.is_null()) return {};
  if (value.is_null()) return "a bound";
  return quantity::write_with_uncertainty(value.get<double>(), uncertainty.get<double>());
}

std::string with_limits(const ordered_json& value, const ordered_json& low,
                        const ordered_json& high) {
  if (low.is_null() && high.is_null()) return {};
  return fmt::format("{} ({}..{})", alone(value), alone(low), alone(high));
}

std::string cell_of(const fleet::AnswerColumn& shown, const ordered_json& row) {
  const auto at = [&](std::size_t index) -> const ordered_json& {
    return row.at(std::string(shown.columns[index]));
  };
  if (shown.how == fleet::AnswerColumn::How::Torque) return torque(at(0), at(1));
  if (at(0).is_null()) return {};
  switch (shown.how) {
    case fleet::AnswerColumn::How::Text: {
      const auto more = shown.columns.size() > 1 ? alone(at(1)) : std::string();
      return more.empty() ? alone(at(0)) : fmt::format("{} ({})", alone(at(0)), more);
    }
    case fleet::AnswerColumn::How::Place:
      return record::write_address(at(0).get<std::string>(), at(1).get<int>());
    case fleet::AnswerColumn::How::Places: {
      auto positions = at(1).get<std::vector<int>>();
      std::ranges::sort(positions);
      return record::write_address(at(0).get<std::string>(), positions);
    }
    case fleet::AnswerColumn::How::Specified:
      return with_limits(at(0), at(1), at(2));
    case fleet::AnswerColumn::How::Between:
      return fmt::format("{:.3f} ({:.3f}..{:.3f})", at(0).get<double>(), at(1).get<double>(),
                         at(2).get<double>());
    case fleet::AnswerColumn::How::Moment:
      return record::write_local(record::read_utc(at(0).get<std::string>()));
    case fleet::AnswerColumn::How::Counter:
      return fmt::format("{} {}", alone(at(0)), alone(at(1)));
    case fleet::AnswerColumn::How::Angle:
      return alone(at(0)) + "°";
    case fleet::AnswerColumn::How::Number:
    case fleet::AnswerColumn::How::Torque:
      break;
  }
  return alone(at(0));
}

Table::Align align_of(fleet::AnswerColumn::How how) {
  const bool is_number =
      how == fleet::AnswerColumn::How::Number || how == fleet::AnswerColumn::How::Torque ||
      how == fleet::AnswerColumn::How::Specified || how == fleet::AnswerColumn::How::Between ||
      how == fleet::AnswerColumn::How::Angle;
  return is_number ? Table::Align::Right : Table::Align::Left;
}

}  // namespace

std::string loaded_text(const std::vector<LoadedLogbook>& logbooks, std::string_view whole,
                        const words::Page& page) {
  const auto refused = static_cast<std::size_t>(std::ranges::count_if(logbooks, was_refused));
  auto text = words::wrapped(
      fmt::format("{} loaded: {}{}", words::counted(logbooks.size() - refused, "logbook"),
                  words::counted(count_new_lines(logbooks), "new line"),
                  refused == 0 ? "" : fmt::format("; {} refused", refused)),
      page.width, "", "  ");
  for (const auto& logbook : logbooks) {
    if (!was_refused(logbook)) continue;
    text += words::wrapped(fmt::format("REFUSED {}: {}", logbook.file, logbook.why), page.width,
                           "  ", "    ");
  }
  Table table;
  table.column("logbook");
  table.column("machine");
  table.column("lines", Table::Align::Right);
  table.column("new", Table::Align::Right);
  table.column("");
  const auto fine = logbooks.size() - refused;
  const auto most = whole.empty() ? fine : shown_of(fine, kMostLogbooks);
  std::size_t shown = 0;
  for (const auto& logbook : logbooks) {
    if (was_refused(logbook) || ++shown > most) continue;
    table.row({logbook.file, logbook.machine, std::to_string(logbook.lines),
               std::to_string(logbook.new_lines), logbook.state});
  }
  if (fine > 0) text += table.fitted("  ", page.width);
  return text + and_more(fine - most, whole, page, "  ");
}

std::string loaded_json(const std::vector<LoadedLogbook>& logbooks) {
  auto rows = ordered_json::array();
  for (const auto& logbook : logbooks) {
    ordered_json row = {{"file", logbook.file},           {"machine", logbook.machine},
                        {"state", logbook.state},         {"lines", logbook.lines},
                        {"new_lines", logbook.new_lines}, {"why", nullptr}};
    if (was_refused(logbook)) row["why"] = logbook.why;
    rows.push_back(std::move(row));
  }
  const auto refused = std::ranges::count_if(logbooks, was_refused);
  return json_text(kFleetLoadedFormat,
                   {{"loaded", logbooks.size() - static_cast<std::size_t>(refused)},
                    {"refused", refused},
                    {"new_lines", count_new_lines(logbooks)},
                    {"logbooks", std::move(rows)}});
}

std::string questions_text(const words::Page& page) {
  Table table;
  table.column("");
  table.column("");
  for (const auto& question : fleet::questions()) {
    table.row({std::string(question.word), std::string(question.says)});
  }
  return words::wrapped("what can be asked: boltwitness fleet ask QUESTION --from ADDRESS",
                        page.width, "", "  ") +
         table.fitted("  ", page.width);
}

std::string questions_json() {
  auto rows = ordered_json::array();
  for (const auto& question : fleet::questions()) {
    rows.push_back({{"question", question.word},
                    {"view", fmt::format("fleet.{}", question.view)},
                    {"says", question.says}});
  }
  return json_text(kFleetQuestionsFormat, {{"questions", std::move(rows)}});
}

std::string fleet_text(const fleet::Question& question, const fleet::Answer& answer,
                       std::string_view whole, const words::Page& page) {
  const auto counted =
      answer.all == 0
          ? std::string("none")
          : fmt::format("{} {}", answer.all, answer.all == 1 ? question.row : question.rows);
  auto text = words::wrapped(fmt::format("{}: {}", question.says, counted), page.width, "", "  ");
  if (answer.all == 0) return text;
  Table table;
  for (const auto& shown : question.shown) {
    table.column(shown.heading, align_of(shown.how));
  }
  const auto most = whole.empty() ? answer.all : shown_of(answer.all, kMostFleetRows);
  for (std::size_t i = 0; i < most; ++i) {
    std::vector<std::string> cells;
    for (const auto& shown : question.shown) cells.push_back(cell_of(shown, answer.rows.at(i)));
    table.row(std::move(cells));
  }
  return text + table.fitted("  ", page.width) + and_more(answer.all - most, whole, page, "  ");
}

std::string fleet_json(const fleet::Question& question, const fleet::Answer& answer) {
  return json_text(kFleetAnswerFormat,
                   {{"question", question.word}, {"says", question.says}, {"rows", answer.rows}});
}

}  // namespace screen
