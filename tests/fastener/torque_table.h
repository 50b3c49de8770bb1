#pragma once

#include <string>
#include <vector>

#include "fastener/printed.h"
#include "fastener/strength.h"
#include "fastener/thread_text.h"
#include "quantity/stated_torque.h"
#include "support/check_values.h"

// One value of a published torque or preload table (torque_tables.csv; the tables' titles and how
// they were made are in torque_table_sources.csv).
struct TableRow {
  std::string table;
  fastener::Thread thread;
  std::string grade;
  std::string friction;  // nut factor or coefficient, as the table states it
  std::string quantity;
  Printed printed;
  std::string unit;

  [[nodiscard]] fastener::Strength strength() const {
    return fastener::strength_of(fastener::read_grade(grade).value(), thread).value();
  }
  // A torque or a force in the unit of the table.
  [[nodiscard]] double in_unit(quantity::Torque torque) const {
    return quantity::in_unit(torque, quantity::read_torque_unit(unit).value());
  }
  [[nodiscard]] double in_unit(quantity::Force force) const {
    if (unit == "kN") return force.in_newtons() / 1000.0;
    return force.in_pounds_force() / (unit == "kip" ? 1000.0 : 1.0);
  }
};

inline std::vector<TableRow> rows_of_table(const std::string& table) {
  std::vector<TableRow> rows;
  for (const auto& row : read_check_values("torque_tables.csv")) {
    if (row.at("table") != table) continue;
    rows.push_back({table, fastener::read_thread(row.at("thread")), row.at("grade"),
                    row.at("friction"), row.at("quantity"), Printed(row.at("value")),
                    row.at("unit")});
  }
  return rows;
}

// For INFO.
inline std::string label_of(const TableRow& row) {
  return row.table + " " + write_exact(row.thread) + " " + row.grade + " " + row.friction + " " +
         row.quantity;
}
