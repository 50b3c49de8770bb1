#include "screen/compare_answer.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "finding/in_line.h"
#include "quantity/length_text.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "screen/cut_list.h"
#include "screen/joint_statistics.h"
#include "screen/json_text.h"
#include "screen/table.h"
#include "words/adapter_in_words.h"
#include "words/found_value.h"
#include "words/joint_heading.h"
#include "words/verdict_text.h"

namespace screen {
namespace {

constexpr std::size_t kMostPositions = 40;  // rows of a joint

using finding::Finding;
using finding::JointState;
using finding::PositionState;
using quantity::Torque;
using quantity::TorqueUnit;

constexpr std::size_t kWideEnoughForAllUnits = 100;
constexpr std::size_t kTooNarrowForRatio = 72;

// Which columns a page has room for.
struct Columns {
  std::vector<TorqueUnit> units;
  TorqueUnit own;
  bool ratio;
};

Columns columns_for(TorqueUnit own, bool all_units, const words::Page& page) {
  const auto needed = all_units ? kWideEnoughForAllUnits : kTooNarrowForRatio;
  Columns columns{{own}, own, page.width >= needed};
  if (all_units || page.width >= kWideEnoughForAllUnits) {
    for (const auto unit : quantity::kSideBySideUnits) {
      if (unit != own) columns.units.push_back(unit);
    }
  }
  return columns;
}

std::string number(Torque torque, TorqueUnit unit) {
  return quantity::write_rounded(quantity::in_unit(torque, unit));
}

std::string bracket_cell(const finding::FoundTorque& torque, TorqueUnit unit) {
  if (!torque.best) return "one bound";
  return fmt::format("{}..{}", number(*torque.low, unit), number(*torque.high, unit));
}

Table table_for(const Columns& columns) {
  Table table;
  table.column("position");
  for (const auto unit : columns.units) {
    table.column(fmt::format("{}{}", columns.ratio ? "found " : "", quantity::name_of(unit)),
                 Table::Align::Right);
  }
  table.column("bracket");
  table.column(fmt::format("± {}", quantity::name_of(columns.own)), Table::Align::Right);
  if (columns.ratio) table.column("ratio", Table::Align::Right);
  table.column("verdict");
  table.column("grade");
  return table;
}

std::vector<std::string> row_for(const JointState& joint, const PositionState& position,
                                 const Finding& finding, const Columns& columns) {
  const auto own = columns.own;
  std::vector<std::string> cells = {record::write_address(joint.joint->code, position.position)};
  for (const auto unit : columns.units) cells.push_back(words::found_value(finding.torque, unit));
  cells.push_back(bracket_cell(finding.torque, own));
  cells.push_back(words::uncertainty_value(finding.torque, own));
  if (columns.ratio) {
    cells.push_back(finding.ratio ? fmt::format("{:.2f}", *finding.ratio) : "-");
  }
  cells.push_back(words::verdict_word(position, finding));
  cells.emplace_back(1, finding::letter_of(finding.graded.grade));
  return cells;
}

// What has to be said of a joint's findings, each remark once with all its positions.
class Remarks {
 public:
  void add(int position, const std::string& text) {
    const auto same = std::ranges::find(remarks_, text, &Remark::text);
    if (same == remarks_.end()) {
      remarks_.push_back({text, {position}});
    } else {
      same->positions.push_back(position);
    }
  }

  [[nodiscard]] std::string text(const std::string& code, const words::Page& page) const {
    std::string lines;
    for (const auto& remark : remarks_) {
      lines += words::wrapped(
          fmt::format("{} {}", record::write_address(code, remark.positions), remark.text),
          page.width, "  ", "    ");
    }
    return lines;
  }

 private:
  struct Remark {
    std::string text;
    std::vector<int> positions;
  };
  std::vector<Remark> remarks_;
};

// What stood between the setting and the figures of the table, and why the grade is what it is.
void remark_on(int position, const Finding& finding, TorqueUnit unit, Remarks& remarks) {
  const auto& measured = finding.entry->content;
  if (record::is_used(measured.adapter)) {
    remarks.add(position, fmt::format("through {}: torque at the fastener",
                                      words::adapter_in_words(measured.adapter)));
  }
  if (measured.prevailing) {
    remarks.add(position,
                fmt::format("running torque {}: added to the limits, left out of the ratio",
                            quantity::write_exact(*measured.prevailing)));
  }
  if (const auto close = words::closer_than_shown(finding, unit); !close.empty()) {
    remarks.add(position, fmt::format("{}: {}", finding::word_of(finding.verdict), close));
  }
  for (const auto* rule : finding.graded.rules) {
    remarks.add(position,
                fmt::format("grade {}: {}", finding::letter_of(finding.graded.grade), rule->why));
  }
}

nlohmann::ordered_json specification_json(const PositionState& position) {
  const auto* specified = position.specified;
  if (specified == nullptr) return nullptr;
  const record::ToleranceWindow none;
  const auto& window = position.window ? *position.window : none;
  return {{"text", record::write_exact(specified->procedure)},
          {"typed", specified->typed},
          {"low_nm", newton_metres_or_null(window.low)},
          {"nominal_nm", newton_metres_or_null(window.nominal)},
          {"high_nm", newton_metres_or_null(window.high)},
          {"assumed", window.assumed},
          {"source", specified->source},
          {"condition", fastener::name_of(specified->condition)}};
}

std::string_view basis_word(finding::Basis basis) {
  switch (basis) {
    case finding::Basis::Bracket:
      return "bracket";
    case finding::Basis::Line:
      return "line";
    case finding::Basis::UpperBound:
      return "upper bound";
    case finding::Basis::LowerBound:
      return "lower bound";
  }
  return "bracket";
}

std::string_view slope_word(finding::SlopeFrom from) {
  switch (from) {
    case finding::SlopeFrom::Offsets:
      return "offsets";
    case finding::SlopeFrom::Bolt:
      return "size and length";
    case finding::SlopeFrom::Share:
    case finding::SlopeFrom::TooStiff:
      break;
  }
  return "share of torque";
}

// Each part one standard deviation.
nlohmann::ordered_json parts_json(const finding::UncertaintyBudget& budget) {
  return {{"bracket_nm", budget.reading.in_newton_metres()},
          {"wrench_nm", budget.wrench.in_newton_metres()},
          {"mark_nm", budget.mark.in_newton_metres()},
          {"stopping_late_nm", budget.method.in_newton_metres()},
          {"grip_nm", budget.grip.in_newton_metres()},
          {"running_torque_nm", budget.running.in_newton_metres()}};
}

nlohmann::ordered_json slope_json(const finding::FoundTorque& torque) {
  return {{"low_nm_per_deg", torque.slope.low.in_newton_metres()},
          {"high_nm_per_deg", torque.slope.high.in_newton_metres()},
          {"counts_nm_per_deg", torque.slope.counts.in_newton_metres()},
          {"from", slope_word(torque.slope.from)},
          {"mark_error_deg", torque.mark_error.in_degrees()}};
}

// Between which settings short and past enclose it, where that is what counts.
nlohmann::ordered_json enclosed_json(const finding::FoundTorque& torque) {
  if (!torque.enclosed) return nullptr;
  return {{"low", torque.enclosed->from.in_newton_metres()},
          {"high", torque.enclosed->to.in_newton_metres()}};
}

nlohmann::ordered_json tightened_json(const Finding& finding) {
  if (!finding.torque.best) return nullptr;
  const auto tightened = finding::tightened_to(finding.torque);
  return {{"best_nm", tightened.best.in_newton_metres()},
          {"uncertainty_nm", tightened.expanded.in_newton_metres()},
          {"verdict", finding::word_of(finding.tightened_verdict)}};
}

nlohmann::ordered_json found_json(const Finding& finding) {
  auto readings = nlohmann::ordered_json::array();
  const auto& measured = finding.entry->content;
  for (const auto& reading : measured.readings) {
    nlohmann::ordered_json row = {{"setting", reading.setting},
                                  {"unit", quantity::name_of(measured.unit)},
                                  {"mark", record::word_of(reading.mark)}};
    if (reading.offset) row["offset_deg"] = reading.offset->in_degrees();
    readings.push_back(std::move(row));
  }
  nlohmann::ordered_json adapter;
  if (record::is_used(measured.adapter)) adapter = words::adapter_in_words(measured.adapter);
  nlohmann::ordered_json prevailing;
  if (measured.prevailing) prevailing = measured.prevailing->torque().in_newton_metres();
  return {{"best_nm", newton_metres_or_null(finding.torque.best)},
          {"low_nm", newton_metres_or_null(finding.torque.low)},
          {"high_nm", newton_metres_or_null(finding.torque.high)},
          {"uncertainty_nm", finding.torque.budget.expanded().in_newton_metres()},
          {"readings", std::move(readings)},
          {"basis", basis_word(finding.torque.basis)},
          {"adapter", std::move(adapter)},
          {"prevailing_nm", std::move(prevailing)},
          {"wrench", measured.wrench},
          {"line", finding.entry->stamp.line},
          {"uncertainty_parts", parts_json(finding.torque.budget)},
          {"slope", slope_json(finding.torque)},
          {"enclosed_nm", enclosed_json(finding.torque)},
          {"in_line_at_specification",
           finding.window && finding::in_line_at_specification(measured, *finding.window)},
          {"tightened_to", tightened_json(finding)}};
}

}  // namespace

nlohmann::ordered_json compare_row_json(const JointState& joint, const PositionState& position) {
  nlohmann::ordered_json row = {{"joint", joint.joint->code},
                                {"position", position.position},
                                {"spec", specification_json(position)},
                                {"found", nullptr},
                                {"verdict", nullptr},
                                {"grade", nullptr},
                                {"ratio", nullptr},
                                {"grade_reasons", nlohmann::ordered_json::array()},
                                {"disputed", nlohmann::ordered_json::array()}};
  for (const auto place : position.disputed_findings) {
    const auto& finding = position.findings[place];
    row["disputed"].push_back({{"line", finding.entry->stamp.line},
                               {"by", finding.entry->stamp.by},
                               {"best_nm", newton_metres_or_null(finding.torque.best)},
                               {"verdict", finding::word_of(finding.verdict)}});
  }
  if (const auto* finding = position.finding()) {
    row["found"] = found_json(*finding);
    row["verdict"] = finding::word_of(finding->verdict);
    row["grade"] = std::string(1, finding::letter_of(finding->graded.grade));
    if (finding->ratio) row["ratio"] = *finding->ratio;
    for (const auto* rule : finding->graded.rules) row["grade_reasons"].push_back(rule->why);
  }
  return row;
}

std::string compare_text(const std::vector<const JointState*>& joints, bool all_units,
                         std::string_view whole, const words::Page& page) {
  if (joints.empty()) return words::no_joints(page);
  std::string text;
  for (const auto* joint : joints) {
    if (!text.empty()) text += '\n';
    text += words::joint_heading(*joint, page);
    const auto columns = columns_for(joint->unit, all_units, page);
    Table table = table_for(columns);
    std::vector<int> untested;
    Remarks remarks;
    std::size_t tested = 0;
    for (const auto& position : joint->positions) {
      const auto* finding = position.finding();
      if (finding == nullptr) {
        untested.push_back(position.position);
        continue;
      }
      if (++tested > kMostPositions && !whole.empty()) continue;
      table.row(row_for(*joint, position, *finding, columns));
      if (auto disputed = words::disputed_findings(position, joint->unit); !disputed.empty()) {
        remarks.add(position.position, disputed);
      }
      remark_on(position.position, *finding, joint->unit, remarks);
    }
    if (untested.size() < joint->positions.size()) text += table.fitted("  ", page.width);
    if (tested > kMostPositions && !whole.empty()) {
      text += and_more(tested - kMostPositions, whole, page, "  ");
    }
    text += remarks.text(joint->joint->code, page);
    if (const auto statistics = joint_statistics(*joint)) {
      text += words::wrapped(statistics_text(*statistics, joint->unit), page.width, "  ", "    ");
    }
    if (!untested.empty()) {
      text += fmt::format("  not tested: {}\n", record::write_positions(untested));
    }
  }
  return text;
}

std::string compare_json(const std::vector<const JointState*>& joints) {
  auto rows = nlohmann::ordered_json::array();
  auto each = nlohmann::ordered_json::array();
  for (const auto* joint : joints) {
    for (const auto& position : joint->positions)
      rows.push_back(compare_row_json(*joint, position));
    const auto statistics = joint_statistics(*joint);
    each.push_back({{"joint", joint->joint->code},
                    {"statistics",
                     statistics ? statistics_json(*statistics) : nlohmann::ordered_json(nullptr)}});
  }
  return json_text(kComparisonFormat, {{"rows", std::move(rows)}, {"joints", std::move(each)}});
}

}  // namespace screen
