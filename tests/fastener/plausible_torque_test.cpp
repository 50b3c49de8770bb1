#include "fastener/plausible_torque.h"

#include "fastener/bearing.h"
#include "fastener/condition.h"
#include "fastener/grade.h"
#include "fastener/thread_generator.h"
#include "fastener/torque_table.h"
#include "support/published.h"

namespace plausible_torque_test {

using fastener::Condition;
using fastener::Grade;
using fastener::read_grade;
using fastener::read_thread;

namespace {

// Of a plain hexagon head, with the friction of the condition and nothing that locks.
fastener::TorqueRange plausible(const fastener::Thread& thread, Grade grade, Condition condition) {
  return fastener::plausible_torque(
      thread, fastener::strength_of(grade, thread).value(),
      fastener::friction_band(condition, fastener::metal_of(grade)).value(),
      fastener::usual_bearing_diameter(thread), quantity::Torque::newton_metres(0));
}

// Checks that every torque of a table lies in the plausible band of the condition the table states;
// gives the number of rows.
int check_plausible(const std::string& table, Condition condition) {
  int checked = 0;
  for (const auto& row : rows_of_table(table)) {
    if (row.quantity != "torque") continue;
    INFO(label_of(row));
    const auto band = plausible(row.thread, read_grade(row.grade).value(), condition);
    CHECK(row.in_unit(band.low) <= row.printed.value);
    CHECK(row.printed.value <= row.in_unit(band.high));
    ++checked;
  }
  return checked;
}

}  // namespace

TEST_CASE("published torques without a formula are plausible", "[fastener]") {
  // Source: torque_tables.csv: three metric tables for oiled bolts, three US Army tables for dry
  // ones (grades 1 or 2 and 6 or 7 taken as 2 and 7).
  CHECK(check_plausible("friction-0.14", Condition::Oiled) == 42);
  CHECK(check_plausible("friction-0.125", Condition::Oiled) == 24);
  CHECK(check_plausible("handbook", Condition::Oiled) == 45);
  CHECK(check_plausible("TM2320", Condition::Dry) == 20);
  CHECK(check_plausible("TM4320", Condition::Dry) == 35);
  CHECK(check_plausible("TM5430", Condition::Dry) == 28);
  // The two metric tables that use T = K d F: K = 0.20 is dry.
  CHECK(check_plausible("J1199", Condition::Dry) == 13);
}

TEST_CASE("dry stainless is judged by its own friction", "[fastener]") {
  // Source: torque_tables.csv, guideline values of austenitic bolts at a friction of 0.3, which is
  // dry: by the friction of steel they would all yield the bolt.
  int checked = 0;
  for (const auto& row : rows_of_table("VDI-stainless")) {
    if (row.quantity != "torque" || row.friction != "0.3") continue;
    INFO(label_of(row));
    const auto grade = read_grade(row.grade).value();
    const auto band = plausible(row.thread, grade, Condition::Dry);
    CHECK(row.in_unit(band.low) <= row.printed.value);
    CHECK(row.printed.value <= row.in_unit(band.high));
    ++checked;
  }
  CHECK(checked == 27);
}

TEST_CASE("published torques of stainless bolts lie in the band of their condition",
          "[fastener][published]") {
  // Source, seen, none used to write the bands: a supplier's table with another head than the one
  // above, class 70 at a friction of 0.3 (dry); a crane's service manual, A2-70 lubricated, to 80 %
  // of yield. Compared with the middle of the band, whose half-width is the tolerance.
  struct Row {
    const char* thread;
    double newton_metres;
    Condition condition;
  };
  for (const auto& [thread, newton_metres, condition] :
       {Row{"M6", 10.4, Condition::Dry}, Row{"M10", 51, Condition::Dry},
        Row{"M16", 218, Condition::Dry}, Row{"M3", 0.9, Condition::AntiSeize},
        Row{"M4", 1.5, Condition::AntiSeize}, Row{"M5", 3.1, Condition::AntiSeize},
        Row{"M6", 5.3, Condition::AntiSeize}, Row{"M8", 13, Condition::AntiSeize},
        Row{"M10", 27, Condition::AntiSeize}}) {
    INFO(thread << " " << fastener::name_of(condition));
    const auto band = plausible(read_thread(thread), Grade::A2_70, condition);
    const double low = band.low.in_newton_metres();
    const double high = band.high.in_newton_metres();
    CHECK_PUBLISHED(Published::Seen, newton_metres,
                    WithinAbs((low + high) / 2.0, (high - low) / 2.0));
  }
}

TEST_CASE("slips of unit fall out of the plausible band", "[fastener]") {
  // ft·lbf taken for N·m the wrong way and in·lbf for ft·lbf, on an M12 8.8 of 80 N·m oiled.
  const auto band = plausible(read_thread("M12"), Grade::Class8_8, Condition::Oiled);
  const auto inside = [&](double newton_metres) {
    const auto torque = quantity::Torque::newton_metres(newton_metres);
    return band.low <= torque && torque <= band.high;
  };
  CHECK(inside(80));
  CHECK_FALSE(inside(80 * 1.3558));
  CHECK_FALSE(inside(80 / 12.0));
  CHECK_FALSE(inside(80 * 12.0));
  CHECK_FALSE(inside(80 * 9.80665));
  CHECK_FALSE(inside(80 * 0.113));
}

TEST_CASE("a plausible band is a band", "[fastener]") {
  holds_always("low below high for every thread, grade and condition", [] {
    const auto thread = *rc::gen::arbitrary<fastener::Thread>();
    const auto grade = static_cast<Grade>(*rc::gen::inRange(0, static_cast<int>(Grade::A4_80) + 1));
    const auto condition = *rc::gen::elementOf(fastener::kConditions);
    const bool is_known = fastener::strength_of(grade, thread) &&
                          fastener::friction_band(condition, fastener::metal_of(grade));
    if (!is_known) return;
    const auto band = plausible(thread, grade, condition);
    RC_ASSERT(band.low < band.high);
    RC_ASSERT(band.low > quantity::Torque::newton_metres(0));
  });
}

}  // namespace plausible_torque_test
