#include "fleet/results.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "audit/calibrations.h"
#include "exchange/logbook_json.h"
#include "finding/drift.h"
#include "plan/reassembly_order.h"
#include "progress/due_rechecks.h"
#include "progress/reassembly.h"
#include "quantity/torque.h"

namespace fleet {
namespace {

using finding::Finding;
using quantity::Torque;

Cell number_cell(std::optional<double> value) {
  if (!value) return std::nullopt;
  return fmt::format("{}", *value);
}

Cell torque_cell(const std::optional<Torque>& torque) {
  if (!torque) return std::nullopt;
  return number_cell(torque->in_newton_metres());
}

Cell truth_cell(bool value) { return value ? "t" : "f"; }

Cell positions_cell(const std::vector<int>& positions) {
  return fmt::format("{{{}}}", fmt::join(positions, ","));
}

// The serial numbers of wrenches; of one that is given later that counts for its earlier uses too.
class Serials {
 public:
  explicit Serials(const record::Job& job) : job_(job) {}

  [[nodiscard]] std::string of(const record::Wrench* on_the_day, std::string_view name) const {
    if (on_the_day != nullptr && !on_the_day->serial.empty()) return on_the_day->serial;
    const auto* now = record::wrench_in(job_, name);
    return now == nullptr ? std::string() : now->serial;
  }

  [[nodiscard]] std::string of(std::string_view name, record::Day day) const {
    return of(record::wrench_on(job_, name, day), name);
  }

 private:
  const record::Job& job_;
};

// What one logbook comes to.
class Working {
 public:
  Working(const std::string& logbook, const record::Job& job, const finding::Survey& survey)
      : logbook_(logbook), job_(job), survey_(survey), serials_(job) {}

  void add_joints(Results& results) const {
    for (const auto& joint : survey_.joints) {
      for (const auto& position : joint.positions) {
        for (const auto& found : position.findings) {
          add_finding(*joint.joint, position, found, results);
        }
        add_fastener(*joint.joint, position, results);
      }
    }
  }

  void add_tightenings(Results& results) const {
    for (const auto& [stamp, work] : job_.tightenings) {
      if (record::is_skipped(work) || work.wrench.empty()) continue;
      const auto day = record::local_day(stamp.done_at);
      results.tightenings.rows.push_back({logbook_, stamp.id, std::to_string(stamp.line),
                                          work.joint, positions_cell(work.positions),
                                          record::write_utc(stamp.done_at), record::write_day(day),
                                          work.wrench, serials_.of(work.wrench, day)});
    }
  }

  void add_calibrations(Results& results) const {
    for (const auto& told : audit::Calibrations(job_).outcomes()) {
      const auto& wrench = *told.wrench;
      results.calibrations.rows.push_back(
          {logbook_, wrench.name, serials_.of(&wrench, wrench.name),
           record::write_day(*wrench.calibrated), record::write_utc(told.first_told->done_at),
           told.first_told->id,
           wrench.found_off ? number_cell(wrench.found_off->in_percent()) : Cell(),
           truth_cell(told.is_off)});
    }
  }

  void add_looks(const std::vector<progress::DueRecheck>& list, Results& results) const {
    for (const auto& due : list) {
      const auto& counted = due.due_reading ? due.due_reading : due.reading;
      results.looks.rows.push_back(
          {logbook_, std::to_string(results.looks.rows.size() + 1), due.joint->code,
           positions_cell(due.positions), due.after ? record::in_words(*due.after) : std::string(),
           record::write_utc(due.since->done_at),
           due.turned ? number_cell(due.turned->in_degrees()) : Cell(),
           due.due_at ? Cell(record::write_utc(*due.due_at)) : Cell(),
           due.due_reading ? number_cell(due.due_reading->amount) : Cell(),
           due.reading ? number_cell(due.reading->amount) : Cell(),
           counted ? std::string(record::word_of(counted->counter)) : std::string()});
    }
  }

 private:
  void add_finding(const record::Joint& joint, const finding::PositionState& position,
                   const Finding& found, Results& results) const {
    const auto& [stamp, measured] = *found.entry;
    const auto& torque = found.torque;
    const double uncertainty = torque.budget.expanded().in_newton_metres();
    Cell ratio_uncertainty;
    if (found.ratio) {
      ratio_uncertainty = number_cell(uncertainty / position.window->nominal->in_newton_metres());
    }
    Cell tightened;
    Cell tightened_uncertainty;
    if (torque.best) {
      const auto once = finding::tightened_to(torque);
      tightened = torque_cell(once.best);
      tightened_uncertainty = torque_cell(once.expanded);
    }
    results.findings.rows.push_back(
        {logbook_,
         stamp.id,
         std::to_string(stamp.line),
         joint.code,
         std::to_string(measured.position),
         found.removal == nullptr ? Cell() : Cell(found.removal->stamp.id),
         record::write_utc(stamp.done_at),
         record::write_day(record::local_day(stamp.done_at)),
         measured.wrench,
         serials_.of(found.wrench, measured.wrench),
         torque_cell(torque.best),
         number_cell(uncertainty),
         torque_cell(torque.low),
         torque_cell(torque.high),
         std::string(1, finding::letter_of(found.graded.grade)),
         truth_cell(finding::is_usable(found)),
         std::string(finding::word_of(found.verdict)),
         number_cell(found.ratio),
         ratio_uncertainty,
         tightened,
         tightened_uncertainty,
         std::string(finding::word_of(found.tightened_verdict))});
  }

  void add_fastener(const record::Joint& joint, const finding::PositionState& position,
                    Results& results) const {
    const auto* specified = position.specified;
    const record::ToleranceWindow none;
    const auto& window = position.window ? *position.window : none;
    const auto* out = position.removal;
    const auto* found = position.finding();
    results.fasteners.rows.push_back(
        {logbook_, joint.code, std::to_string(position.position), joint.holds, joint.size,
         joint.length ? number_cell(joint.length->in_millimetres()) : Cell(), joint.grade,
         std::to_string(joint.count),
         specified == nullptr ? std::string() : record::write_exact(specified->procedure),
         specified == nullptr ? std::string()
                              : std::string(fastener::name_of(specified->condition)),
         specified == nullptr ? std::string() : specified->source, torque_cell(window.nominal),
         torque_cell(window.low), torque_cell(window.high), truth_cell(window.assumed),
         out == nullptr ? Cell() : Cell(std::string(record::word_of(out->content.broke))),
         out == nullptr ? Cell() : Cell(record::write_utc(out->stamp.done_at)),
         out == nullptr ? Cell() : Cell(out->stamp.id),
         found == nullptr ? Cell() : Cell(found->entry->stamp.id)});
  }

  const std::string& logbook_;
  const record::Job& job_;
  const finding::Survey& survey_;
  Serials serials_;
};

std::vector<progress::DueRecheck> looks_of(const progress::SurveyedJob& whole, record::Moment now) {
  const progress::PlanUnderWay under_way(
      whole.job, whole.survey, progress::all_joints(whole.survey), record::local_day(now));
  return progress::due_rechecks(whole.job, whole.survey, under_way.progress, now, std::nullopt);
}

// The line that this one strikes.
Cell struck_by(const record::StoredLine& line) {
  for (const auto& table : line.tables) {
    if (table.name != "strike") continue;
    for (const auto& [column, value] : table.rows.front()) {
      if (column == "struck_id") return std::get<std::string>(value);
    }
  }
  return std::nullopt;
}

}  // namespace

Results work_out(const std::string& logbook, record::Job job, record::Moment now) {
  Results results;
  const progress::SurveyedJob whole(std::move(job));
  const Working working(logbook, whole.job, whole.survey);
  working.add_joints(results);
  working.add_tightenings(results);
  working.add_calibrations(results);
  if (whole.job.stripes.empty()) return results;
  try {
    working.add_looks(looks_of(whole, now), results);
  } catch (const plan::PlanCycle&) {
    // Where joints wait for each other in a circle it is told as if none waited.
    const progress::SurveyedJob freed(progress::without_precedences(whole.job));
    working.add_looks(looks_of(freed, now), results);
  }
  return results;
}

LineRows no_lines() {
  return {"line",
          {"logbook", "id", "kind", "by_whom", "done_at", "entered_at", "device", "hash", "strikes",
           "says"}};
}

void add_line(LineRows& rows, const std::string& logbook, const record::StoredLine& line) {
  rows.rows.push_back({logbook, line.id, line.kind, line.by, line.done_at, line.entered_at,
                       line.device, "\\x" + line.hash.value().hash, struck_by(line),
                       exchange::write_rows_json(line)});
}

}  // namespace fleet
