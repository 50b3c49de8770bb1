// What reassembly writes into the logbook reads back as it was, and nobody can change it.

#include <SQLiteCpp/SQLiteCpp.h>

#include <array>

#include "logbook/logbook.h"
#include "logbook/recording.h"
#include "quantity/volume_text.h"
#include "support/catch.h"
#include "support/temporary_folder.h"

namespace reassembly_rows_test {

using logbook::Logbook;
using logbook::Recording;

namespace {

logbook::Writer writer() {
  const auto now = record::read_moment("2026-06-20T08:00:00Z");
  return {"KB", "00000000-0000-4000-8000-000000000001", now, now};
}

record::Joint cover() {
  record::Joint joint;
  joint.code = "J07";
  joint.holds = "inspection cover";
  joint.size = "M8x1.25";
  joint.grade = "8.8";
  joint.count = 8;
  joint.after = {"J03"};
  joint.covers = {"J05", "J06"};
  joint.bench = true;
  joint.final_when = "the shaft is loaded";
  joint.order = "1,3,2,4,5,7,6,8";
  joint.passes = "three-rounds";
  joint.rechecks = {record::read_recheck_interval("7 days"),
                    record::read_recheck_interval("50 running h")};
  return joint;
}

record::Specified for_two_positions() {
  record::Specified specified;
  specified.joint = "J07";
  specified.typed = "12 Nm";
  specified.procedure = record::read_specification("12 Nm");
  specified.positions = {2, 7};
  return specified;
}

record::Tightening second_pass() {
  record::Tightening tightening;
  tightening.joint = "J07";
  tightening.positions = {1, 3, 5};
  tightening.pass = 2;
  tightening.target = {record::PassKind::Angle, std::nullopt, quantity::Angle::degrees(60)};
  tightening.wrench = "TW2";
  tightening.setting = 22.5;
  tightening.unit = quantity::TorqueUnit::FootPoundForce;
  tightening.adapter = record::read_adapter("2 in", "16 in", "");
  tightening.turned = quantity::Angle::degrees(62);
  return tightening;
}

// One line of each kind, in a file of its own.
class ReassemblyLogbook {
 public:
  ReassemblyLogbook() {
    record::LogbookStart start;
    start.machine = "GB-1";
    logbook::start_logbook(path(), start, writer());
    auto open = Logbook::open_to_write(path());
    Recording recording(open, writer());
    recording.append(cover());
    recording.append(for_two_positions());
    recording.append(record::FluidAmount{"gear oil", record::FluidMove::Drained,
                                         quantity::read_volume("1.5 US qt"), "1.5 US qt", "dark"});
    recording.append(record::CountedItem{"CL1", "hose clips", 6, "J07"});
    recording.append(record::ItemReturn{"CL1", 4});
    recording.append(
        record::HoldPoint{"HV", "store discharged", record::read_span_of_time("10 min"), {"J07"}});
    recording.append(
        record::HoldPointStep{"HV", record::HoldPointMove::Passed, "0 V at both rails"});
    recording.append(record::Renewal{"J07", {1, 2, 8}});
    recording.append(second_pass());
    recording.append(
        record::FinalStripe{"J07", {1, 2}, false, record::read_running_amount("1240 running h")});
    recording.append(record::Recheck{"J07", {2}, quantity::Angle::degrees(15), std::nullopt});
    recording.commit();
  }

  [[nodiscard]] std::string path() const { return folder_.file("gb1.bolts"); }

 private:
  TemporaryFolder folder_;
};

}  // namespace

TEST_CASE("what reassembly records reads back as it was", "[logbook]") {
  const ReassemblyLogbook written;
  const auto job = Logbook::open_to_read(written.path()).job();

  const auto& joint = job.joints.at(0).content;
  CHECK(joint.covers == cover().covers);
  CHECK(joint.bench);
  CHECK(joint.final_when == cover().final_when);
  CHECK(joint.order == cover().order);
  CHECK(joint.passes == cover().passes);
  CHECK(joint.rechecks == cover().rechecks);
  CHECK(job.specifications.at(0).content.positions == std::vector{2, 7});

  const auto& fluid = job.fluids.at(0).content;
  CHECK(fluid.fluid == "gear oil");
  CHECK(fluid.move == record::FluidMove::Drained);
  CHECK(fluid.amount == quantity::read_volume("1.5 US qt"));
  CHECK(fluid.typed == "1.5 US qt");
  CHECK(fluid.note == "dark");

  CHECK(job.items.at(0).content.count == 6);
  CHECK(job.items.at(0).content.before == "J07");
  CHECK(job.item_returns.at(0).content.count == 4);
  CHECK(job.hold_points.at(0).content.wait->seconds == std::chrono::minutes(10));
  CHECK(job.hold_points.at(0).content.joints == std::vector<std::string>{"J07"});
  CHECK(job.hold_point_steps.at(0).content.move == record::HoldPointMove::Passed);
  CHECK(job.hold_point_steps.at(0).content.note == "0 V at both rails");
  CHECK(job.renewals.at(0).content.positions == std::vector{1, 2, 8});

  const auto& tightening = job.tightenings.at(0).content;
  CHECK(tightening.positions == second_pass().positions);
  CHECK(tightening.pass == 2);
  CHECK(tightening.target == second_pass().target);
  CHECK(tightening.wrench == "TW2");
  CHECK(tightening.setting == 22.5);
  CHECK(tightening.unit == second_pass().unit);
  const auto& told = record::told_of(tightening.adapter);
  REQUIRE(told.measures);
  CHECK(told.measures->adapter_length.in_millimetres() == 50.8);
  CHECK(told.extension_typed == "2 in");
  CHECK(tightening.adapter.torque_ratio == 1.125);
  CHECK(tightening.turned == quantity::Angle::degrees(62));
  CHECK_FALSE(record::is_skipped(tightening));

  CHECK_FALSE(job.stripes.at(0).content.teardown_mark_wiped);
  CHECK(job.stripes.at(0).content.counter == record::read_running_amount("1240 running h"));
  CHECK(job.rechecks.at(0).content.turned == quantity::Angle::degrees(15));
  CHECK_FALSE(job.rechecks.at(0).content.counter);
}

TEST_CASE("history has every line of reassembly", "[logbook]") {
  const ReassemblyLogbook written;
  CHECK(Logbook::open_to_read(written.path()).history().size() == 12);
}

TEST_CASE("no line of reassembly can be changed, removed or replaced", "[logbook]") {
  const ReassemblyLogbook written;
  SQLite::Database shell(written.path(), SQLite::OPEN_READWRITE);
  SQLite::Statement table(shell, R"(
      SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite%'
        AND name <> 'entry_kind' ORDER BY name)");
  int filled = 0;
  while (table.executeStep()) {
    const std::string name = table.getColumn(0).getString();
    if (shell.execAndGet("SELECT count(*) FROM " + name).getInt() == 0) continue;
    ++filled;
    INFO(name);
    const std::string key = name == "entry" ? "id" : "entry_id";
    CHECK_THROWS_WITH(shell.exec("UPDATE " + name + " SET " + key + " = " + key),
                      ContainsSubstring("never changed"));
    CHECK_THROWS_WITH(shell.exec("DELETE FROM " + name), ContainsSubstring("never removed"));
    CHECK_THROWS_WITH(shell.exec("INSERT OR REPLACE INTO " + name + " SELECT * FROM " + name),
                      ContainsSubstring("never"));
  }
  CHECK(filled == 23);
}

}  // namespace reassembly_rows_test
