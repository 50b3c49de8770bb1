#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "record/job.h"
#include "record/logbook_copy.h"
#include "record/moment.h"

namespace fleet {

// A value as PostgreSQL reads it; nothing for NULL.
using Cell = std::optional<std::string>;

// Rows for a table of schema/postgres/, the first column of each the id of the logbook.
template <std::size_t kColumns>
struct Rows {
  std::string_view table;
  std::array<std::string_view, kColumns> columns;
  std::vector<std::array<Cell, kColumns>> rows = {};
};

// What is worked out of the lines that count.
struct Results {
  Rows<22> findings{"finding",
                    {"logbook",
                     "id",
                     "line",
                     "joint",
                     "position",
                     "teardown",
                     "done_at",
                     "used_on",
                     "wrench",
                     "serial",
                     "found_nm",
                     "found_uncertainty_nm",
                     "found_low_nm",
                     "found_high_nm",
                     "evidence",
                     "usable",
                     "verdict",
                     "ratio",
                     "ratio_uncertainty",
                     "tightened_nm",
                     "tightened_uncertainty_nm",
                     "tightened_verdict"}};
  Rows<19> fasteners{
      "fastener",
      {"logbook", "joint", "position", "holds", "size", "length_mm", "grade", "joint_count",
       "specification", "condition", "source", "specified_nm", "specified_low_nm",
       "specified_high_nm", "limits_assumed", "broke", "out_at", "teardown", "finding"}};
  Rows<9> tightenings{
      "tightening",
      {"logbook", "id", "line", "joint", "positions", "done_at", "used_on", "wrench", "serial"}};
  Rows<8> calibrations{"calibration",
                       {"logbook", "wrench", "serial", "calibrated_on", "told_at", "told_by",
                        "found_off_percent", "is_off"}};
  Rows<11> looks{"look",
                 {"logbook", "number", "joint", "positions", "asked", "since_at", "turned_degrees",
                  "due_at", "due_counter", "counter", "counter_unit"}};

  // Calls `work` with each of the five.
  template <class Work>
  void for_each(const Work& work) const {
    work(findings);
    work(fasteners);
    work(tightenings);
    work(calibrations);
    work(looks);
  }
};

// Of the logbook with this id. What is due is told whether it is so at `now` or later.
[[nodiscard]] Results work_out(const std::string& logbook, record::Job job, record::Moment now);

// The lines themselves, each with all its rows and its hash.
using LineRows = Rows<10>;
[[nodiscard]] LineRows no_lines();
void add_line(LineRows& rows, const std::string& logbook, const record::StoredLine& line);

}  // namespace fleet
