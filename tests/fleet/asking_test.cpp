// Each question is answered as the logbooks themselves answer it, one by one, by other commands.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

#include "fleet/question.h"
#include "support/catch.h"
#include "support/fleet_trial.h"
#include "support/job_builder.h"

namespace asking_test {

namespace {

using nlohmann::json;

// Four fasteners oiled to 80 N·m, tested at these settings.
JobBuilder tested(const std::vector<int>& settings) {
  JobBuilder builder;
  builder.wrench().joint("J06", static_cast<int>(settings.size()));
  builder.specified("J06", "80 N·m", "GB-1 Shop Manual rev C p. 12", fastener::Condition::Oiled);
  builder.out(fmt::format("J06/1-{}", settings.size()));
  for (std::size_t i = 0; i < settings.size(); ++i) {
    builder.found(fmt::format("J06/{}", i + 1),
                  fmt::format("{}s {}o", settings[i] - 2, settings[i]));
  }
  return builder;
}

// The rows of compare for this logbook.
json compared(FleetTrial& fleet, const std::string& name, const std::string& more = "") {
  return fleet.trial.done("compare --json --log " + fleet.path(name) + more).json()["rows"];
}

double middle_of(std::vector<double> values) {
  std::ranges::sort(values);
  const auto half = values.size() / 2;
  return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2;
}

// Where a look is due, when, and how far the stripe has turned.
std::string due_text(const json& look, const char* turned) {
  return fmt::format("{} {} {}", look["positions"].dump(), look["due_at"].dump(),
                     look[turned].is_null() ? 0.0 : look[turned].get<double>());
}

std::vector<std::string> lines_of(const std::string& text) {
  std::istringstream rest(text);
  std::vector<std::string> lines;
  for (std::string line; std::getline(rest, line);) lines.push_back(line);
  return lines;
}

}  // namespace

TEST_CASE("what is found and specified in the fleet is what compare tells of each logbook",
          "[fleet]") {
  auto* servers = PostgresServers::running();
  if (servers == nullptr) return;
  FleetTrial fleet(*servers);
  auto job = tested({80, 60, 95, 88});
  job.joint("J07", 2, "M10x1.5").specified("J07", "40 N·m, +60°").found("J07/1", "30s 32o");
  job.found("J06/1", "70s 72o");
  write_logbook(fleet.path("gb1.bolts"), "GB-1", job.job());
  REQUIRE(fleet.load({"gb1.bolts"}).code == 0);
  const auto rows =
      json::parse(fleet.query("SELECT json_agg(f ORDER BY joint, position) FROM fleet.found f"));
  const auto expected = compared(fleet, "gb1.bolts");
  REQUIRE(rows.size() == expected.size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const auto& row = rows[i];
    const auto& told = expected[i];
    INFO(told.dump());
    CHECK(row["joint"] == told["joint"]);
    CHECK(row["position"] == told["position"]);
    CHECK(row["specified_nm"] == told["spec"]["nominal_nm"]);
    CHECK(row["specified_low_nm"] == told["spec"]["low_nm"]);
    CHECK(row["specified_high_nm"] == told["spec"]["high_nm"]);
    CHECK(row["limits_assumed"] == told["spec"]["assumed"]);
    CHECK(row["specification"] == told["spec"]["text"]);
    CHECK(row["condition"] == told["spec"]["condition"]);
    CHECK(row["verdict"] == told["verdict"]);
    CHECK(row["evidence"] == told["grade"]);
    CHECK(row["ratio"] == told["ratio"]);
    if (told["found"].is_null()) continue;
    CHECK(row["found_nm"] == told["found"]["best_nm"]);
    CHECK(row["found_uncertainty_nm"] == told["found"]["uncertainty_nm"]);
    CHECK(row["found_low_nm"] == told["found"]["low_nm"]);
    CHECK(row["found_high_nm"] == told["found"]["high_nm"]);
    CHECK(row["line"] == told["found"]["line"]);
    CHECK(row["tightened_nm"] == told["found"]["tightened_to"]["best_nm"]);
  }
}

TEST_CASE("the tallies count what compare tells of every logbook", "[fleet]") {
  auto* servers = PostgresServers::running();
  if (servers == nullptr) return;
  FleetTrial fleet(*servers);
  const std::vector<std::vector<int>> settings = {
      {80, 60, 95, 88}, {81, 79, 50, 80}, {120, 77, 80, 80}};
  std::vector<std::string> names;
  for (std::size_t i = 0; i < settings.size(); ++i) {
    auto job = tested(settings[i]);
    job.joint("J07", 2, i == 0 ? "M8x1.25" : "M10x1.5").specified("J07", "40 N·m");
    job.out("J07/1-2", record::BreakLoose::AlreadyLoose).found("J07/1", "36s 38o");
    names.push_back(fmt::format("m{}.bolts", i));
    write_logbook(fleet.path(names.back()), fmt::format("GB-{}", i), job.job());
  }
  REQUIRE(fleet.load(names).code == 0);
  struct Tally {
    std::map<std::string, int> verdicts;
    int fasteners = 0;
    std::vector<double> ratios, low, high;
  };
  std::map<std::string, Tally> by_joint;
  std::map<std::string, Tally> by_condition;
  for (const auto& name : names) {
    for (const auto& row : compared(fleet, name)) {
      for (auto* tally : {&by_joint[row["joint"]], &by_condition[row["spec"]["condition"]]}) {
        ++tally->fasteners;
        if (row["verdict"].is_null()) continue;
        ++tally->verdicts[row["verdict"]];
        const double spread =
            row["found"]["uncertainty_nm"].get<double>() / row["spec"]["nominal_nm"].get<double>();
        const double ratio = row["ratio"];
        tally->ratios.push_back(ratio);
        tally->low.push_back(ratio - spread);
        tally->high.push_back(ratio + spread);
      }
    }
  }
  const auto hold_against = [&](const std::map<std::string, Tally>& tallies,
                                const std::string& by) {
    const auto rows = fleet.ask("by-" + by);
    REQUIRE(rows.size() == tallies.size());
    for (const auto& row : rows) {
      INFO(row.dump());
      auto tally = tallies.at(row[by]);
      CHECK(row["machines"] == 3);
      CHECK(row["fasteners"] == tally.fasteners);
      CHECK(row["found"] == tally.ratios.size());
      for (const auto* verdict : {"within", "low", "high", "undecided"}) {
        CHECK(row[verdict] == tally.verdicts[verdict]);
      }
      CHECK_THAT(row["median_ratio"].get<double>(), WithinAbs(middle_of(tally.ratios), 1e-12));
      CHECK_THAT(row["median_ratio_low"].get<double>(), WithinAbs(middle_of(tally.low), 1e-12));
      CHECK_THAT(row["median_ratio_high"].get<double>(), WithinAbs(middle_of(tally.high), 1e-12));
    }
  };
  hold_against(by_joint, "joint");
  hold_against(by_condition, "condition");
  std::map<std::string, int> sizes;
  for (const auto& row : fleet.ask("by-size")) sizes[row["size"]] = row["came_out_loose"];
  CHECK(sizes == std::map<std::string, int>{{"M12x1.75", 0}, {"M8x1.25", 2}, {"M10x1.5", 4}});
  CHECK(fleet.ask("by-wrench").size() == 3);  // without a serial number each logbook has its own
}

TEST_CASE("loosened is what came out loose or lower than in the teardown before", "[fleet]") {
  auto* servers = PostgresServers::running();
  if (servers == nullptr) return;
  FleetTrial fleet(*servers);
  write_logbook(fleet.path("old.bolts"), "GB-1", tested({80, 80, 80, 80, 80}).job());
  auto job = tested({81, 55, 76, 104, 79});
  job.out("J06/5", record::BreakLoose::AlreadyLoose);
  write_logbook(fleet.path("new.bolts"), "gb-1", job.job(), 180);
  write_logbook(fleet.path("other.bolts"), "GB-2", tested({40, 40, 40, 40, 40}).job(), 180);
  REQUIRE(fleet.load({"new.bolts", "old.bolts", "other.bolts"}).code == 0);
  std::map<int, double> lower;
  for (const auto& row : compared(fleet, "new.bolts", " --with " + fleet.path("old.bolts"))) {
    if (row["e_n"] < -1.0) lower.emplace(row["position"], row["e_n"]);
  }
  REQUIRE(lower.size() == 1);
  const auto rows = fleet.ask("loosened", " --machine GB-1");
  REQUIRE(rows.size() == 2);
  CHECK(rows[0]["position"] == 2);
  CHECK(rows[0]["how"] == "lower than before");
  CHECK_THAT(rows[0]["e_n"].get<double>(), WithinAbs(lower.at(2), 1e-12));
  CHECK(rows[0]["before_nm"] == 80.0);
  CHECK(rows[0]["before_at"].get<std::string>().starts_with("2026-06-01T08:"));
  CHECK(rows[1]["position"] == 5);
  CHECK(rows[1]["how"] == "came out loose");
  CHECK(fleet.ask("loosened").size() == 2);
  const auto text = fleet.trial.done("fleet ask loosened --from " + fleet.address).told();
  CHECK_THAT(text, ContainsSubstring("loosened since the teardown before: 2 fasteners") &&
                       ContainsSubstring("J06/02") && ContainsSubstring("55.0 ±") &&
                       ContainsSubstring("80 (72..88)"));
}

TEST_CASE("two teardowns in one logbook are held against each other too", "[fleet]") {
  auto* servers = PostgresServers::running();
  if (servers == nullptr) return;
  FleetTrial fleet(*servers);
  auto job = tested({80, 80});
  job.tightened("J06/1,2", 1, 80, 80).striped("J06/1-2").out("J06/1-2");
  job.found("J06/1", "58s 60o").found("J06/2", "78s 80o");
  write_logbook(fleet.path("gb1.bolts"), "GB-1", job.job());
  REQUIRE(fleet.load({"gb1.bolts"}).code == 0);
  const auto rows = fleet.ask("loosened");
  REQUIRE(rows.size() == 1);
  CHECK(rows[0]["position"] == 1);
  CHECK(rows[0]["found_nm"] == 60.0);
  CHECK(rows[0]["before_nm"] == 80.0);
}

TEST_CASE("a machine against one sister is what compare --with tells", "[fleet]") {
  auto* servers = PostgresServers::running();
  if (servers == nullptr) return;
  FleetTrial fleet(*servers);
  write_logbook(fleet.path("a.bolts"), "GB-1", tested({80, 60, 84, 90}).job());
  write_logbook(fleet.path("b.bolts"), "GB-2", tested({81, 80, 80, 80}).job());
  REQUIRE(fleet.load({"a.bolts", "b.bolts"}).code == 0);
  const auto changed = fleet.ask("changed", " --machine gb-1");
  std::size_t expected = 0;
  for (const auto& row : compared(fleet, "a.bolts", " --with " + fleet.path("b.bolts"))) {
    if (!row["changed"].get<bool>()) continue;
    REQUIRE(expected < changed.size());
    CHECK(changed[expected]["position"] == row["position"]);
    CHECK_THAT(changed[expected]["e_n"].get<double>(), WithinAbs(row["e_n"].get<double>(), 1e-12));
    CHECK_THAT(changed[expected]["ratio"].get<double>(),
               WithinAbs(row["ratio"].get<double>(), 1e-12));
    ++expected;
  }
  CHECK(expected >= 1);
  CHECK(changed.size() == expected);
}

TEST_CASE("the sisters' value is the median of the others, and so is its uncertainty bounded",
          "[fleet]") {
  auto* servers = PostgresServers::running();
  if (servers == nullptr) return;
  FleetTrial fleet(*servers);
  const std::vector<int> first = {80, 66, 92, 84, 75, 80};
  std::vector<std::string> names;
  for (std::size_t i = 0; i < first.size(); ++i) {
    names.push_back(fmt::format("m{}.bolts", i));
    write_logbook(fleet.path(names.back()), fmt::format("GB-{}", i), tested({first[i], 80}).job());
  }
  // Another specification is no sister.
  auto odd = tested({50, 50});
  odd.last_specified().typed = "52 N·m";
  odd.last_specified().procedure = record::read_specification("52 N·m");
  write_logbook(fleet.path("odd.bolts"), "GB-X", odd.job());
  names.emplace_back("odd.bolts");
  REQUIRE(fleet.load(names).code == 0);
  std::vector<double> found;
  std::vector<double> spread;
  for (std::size_t i = 0; i < first.size(); ++i) {
    const auto row = compared(fleet, names[i])[0];
    found.push_back(row["found"]["best_nm"]);
    spread.push_back(row["found"]["uncertainty_nm"]);
  }
  const auto rows = json::parse(fleet.query(
      "SELECT json_agg(b ORDER BY machine) FROM fleet.beside_sisters b WHERE position = 1"));
  REQUIRE(rows.size() == first.size());
  for (std::size_t own = 0; own < first.size(); ++own) {
    std::vector<double> others;
    std::vector<double> low;
    std::vector<double> high;
    for (std::size_t i = 0; i < first.size(); ++i) {
      if (i == own) continue;
      others.push_back(found[i]);
      low.push_back(found[i] - spread[i]);
      high.push_back(found[i] + spread[i]);
    }
    const double middle = middle_of(others);
    const double uncertainty = std::max(middle - middle_of(low), middle_of(high) - middle);
    INFO(rows[own].dump());
    CHECK(rows[own]["sisters"] == 5);
    CHECK_THAT(rows[own]["sisters_nm"].get<double>(), WithinAbs(middle, 1e-9));
    CHECK_THAT(rows[own]["sisters_uncertainty_nm"].get<double>(), WithinAbs(uncertainty, 1e-9));
    CHECK_THAT(rows[own]["e_n"].get<double>(),
               WithinAbs((found[own] - middle) / std::hypot(spread[own], uncertainty), 1e-9));
  }
  const auto drift = fleet.ask("drift");
  REQUIRE(drift.size() == first.size());
  CHECK(drift[1]["machine"] == "GB-1");
  CHECK(drift[1]["fasteners"] == 2);
  CHECK(drift[1]["lower"] == 1);
}

TEST_CASE("what a bad wrench touched is found on every machine that knows its serial number",
          "[fleet]") {
  auto* servers = PostgresServers::running();
  if (servers == nullptr) return;
  FleetTrial fleet(*servers);
  const auto with_serial = [](const std::string& serial) {
    JobBuilder builder;
    builder.wrench();
    builder.last_wrench().serial = serial;
    builder.joint("J06", 2).specified("J06").out("J06/1-2").found("J06/1", "78s 80o");
    return builder;
  };
  auto own = with_serial("TX-4711");
  own.tightened("J06/1,2", 1, 80, 80);
  own.wrench("TW2", "20..200 N·m", "1 N·m", "2026-09-01");
  own.last_wrench().serial = "TX-4711";
  own.last_wrench().found_off = quantity::Percent::of_hundred(9);
  write_logbook(fleet.path("a.bolts"), "GB-1", own.job());
  write_logbook(fleet.path("b.bolts"), "GB-2", with_serial("tx-4711").job(), 30);
  write_logbook(fleet.path("c.bolts"), "GB-3", with_serial("TX-4712").job(), 30);
  write_logbook(fleet.path("d.bolts"), "GB-4", with_serial("TX-4711").job(), -120);  // before March
  write_logbook(fleet.path("e.bolts"), "GB-5", with_serial("TX-4711").job(), 100);   // after it
  REQUIRE(fleet.load({"a.bolts", "b.bolts", "c.bolts", "d.bolts", "e.bolts"}).code == 0);
  const auto rows = fleet.ask("bad-wrench");
  std::vector<std::string> touched;
  for (const auto& row : rows) {
    touched.push_back(fmt::format("{} {} {}", row["machine"].get<std::string>(),
                                  row["what"].get<std::string>(), row["positions"].dump()));
    CHECK(row["calibrated_on"] == "2026-09-01");
    CHECK(row["found_off_percent"] == 9.0);
  }
  CHECK(touched ==
        std::vector<std::string>{"GB-1 tested [1]", "GB-1 tightened [1,2]", "GB-2 tested [1]"});
  // Its own logbook knows of it as well.
  const auto audit = fleet.trial.run("audit --json --log " + fleet.path("a.bolts"));
  CHECK_THAT(audit.out, ContainsSubstring("wrench found off"));
}

TEST_CASE("what is overdue is what recheck tells of each logbook", "[fleet]") {
  auto* servers = PostgresServers::running();
  if (servers == nullptr) return;
  FleetTrial fleet(*servers);
  const auto striped = [](const std::string& counter) {
    JobBuilder builder = tested({80, 80});
    builder.last_joint().rechecks = {record::read_recheck_interval("7 days"),
                                     record::read_recheck_interval("50 running h")};
    builder.tightened("J06/1,2", 1, 80, 80).striped("J06/1-2", counter);
    return builder;
  };
  write_logbook(fleet.path("a.bolts"), "GB-1", striped("1000 running h").job());
  auto turned = striped("");
  turned.rechecked("J06/2", 15, "80 running h");
  write_logbook(fleet.path("b.bolts"), "GB-2", turned.job());
  REQUIRE(fleet.load({"a.bolts", "b.bolts"}).code == 0);
  for (const auto* at : {"2026-06-03T12:00Z", "2026-06-20T12:00Z"}) {
    INFO(at);
    std::multiset<std::string> expected;
    for (const auto* name : {"a.bolts", "b.bolts"}) {
      const json due =
          fleet.trial.run(fmt::format("recheck --json --at {} --log {}", at, fleet.path(name)))
              .json()["due"];
      for (const auto& look : due) {
        if (!look["overdue"].get<bool>()) continue;
        expected.insert(due_text(look, "turned_deg"));
      }
    }
    std::multiset<std::string> told;
    for (const auto& row : fleet.ask("overdue", fmt::format(" --at {}", at))) {
      told.insert(due_text(row, "turned_degrees"));
    }
    CHECK(told == expected);
    CHECK_FALSE(told.empty());
  }
}

TEST_CASE("a machine that is not loaded is no machine where all is well", "[fleet]") {
  auto* servers = PostgresServers::running();
  if (servers == nullptr) return;
  FleetTrial fleet(*servers);
  write_logbook(fleet.path("a.bolts"), "GB-1", tested({80, 80}).job());
  REQUIRE(fleet.load({"a.bolts"}).code == 0);
  CHECK(fleet.ask("loosened", " --machine gb-1").empty());
  const auto outcome = fleet.trial.run("fleet ask loosened --machine GB1 --from " + fleet.address);
  CHECK(outcome.code == 1);
  CHECK(outcome.out.empty());
  CHECK_THAT(outcome.said(), ContainsSubstring("no logbook of \"GB1\" is loaded, but of 1 other "
                                               "machine; did you mean GB-1?"));
}

TEST_CASE("a long answer is cut and says how to see all", "[fleet]") {
  auto* servers = PostgresServers::running();
  if (servers == nullptr) return;
  FleetTrial fleet(*servers);
  JobBuilder builder;
  builder.wrench().joint("J06", 60).specified("J06");
  builder.out("J06/1-60", record::BreakLoose::AlreadyLoose);
  write_logbook(fleet.path("a.bolts"), "GB-1", builder.job());
  REQUIRE(fleet.load({"a.bolts"}).code == 0);
  const auto command = "fleet ask loosened --from " + fleet.address;
  const auto cut = fleet.trial.done(command);
  CHECK_THAT(cut.told(), ContainsSubstring("60 fasteners") && ContainsSubstring("and 20 more: ") &&
                             ContainsSubstring("--whole"));
  CHECK(lines_of(fleet.trial.done(command + " --whole").out).size() >= 62);
  CHECK(fleet.ask("loosened").size() == 60);
}

TEST_CASE("every question is a view with a comment whose example runs, and no figure stands alone",
          "[fleet]") {
  auto* servers = PostgresServers::running();
  if (servers == nullptr) return;
  FleetTrial fleet(*servers);
  write_logbook(fleet.path("a.bolts"), "GB-1", tested({80, 60}).job());
  REQUIRE(fleet.load({"a.bolts"}).code == 0);
  for (const auto& question : fleet::questions()) {
    INFO(question.word);
    const auto comment =
        fleet.query(fmt::format("SELECT obj_description('fleet.{}'::regclass)", question.view));
    const auto at = comment.find("Example: ");
    REQUIRE(at != comment.npos);
    fleet.query(comment.substr(at + 9));
    fleet.ask(std::string(question.word));
    fleet.trial.done(fmt::format("fleet ask {} --from {}", question.word, fleet.address));
  }
  std::map<std::string, std::set<std::string>> columns;
  for (const auto& line : lines_of(fleet.query(
           "SELECT table_name, column_name FROM information_schema.columns WHERE table_schema = "
           "'fleet' AND table_name IN (SELECT table_name FROM information_schema.views "
           "WHERE table_schema = 'fleet')"))) {
    const auto bar = line.find('|');
    columns[line.substr(0, bar)].insert(line.substr(bar + 1));
  }
  CHECK(columns.size() >= fleet::questions().size());
  for (const auto& [view, names] : columns) {
    for (const auto& name : names) {
      INFO(view << '.' << name);
      if (!name.ends_with("_nm") && name != "ratio" && name != "median_ratio") continue;
      const auto stem = name.ends_with("_nm") ? name.substr(0, name.size() - 3) : name;
      const auto end = name.ends_with("_nm") ? "_nm" : "";
      const bool is_its_bound =
          stem.ends_with("_low") || stem.ends_with("_high") || stem.ends_with("_uncertainty");
      CHECK((is_its_bound || names.contains(stem + "_uncertainty" + end) ||
             (names.contains(stem + "_low" + end) && names.contains(stem + "_high" + end))));
    }
  }
}

TEST_CASE("where there is no fleet yet, or one of a later version, that is said", "[fleet]") {
  auto* servers = PostgresServers::running();
  if (servers == nullptr) return;
  FleetTrial fleet(*servers);
  fleet.address = servers->new_database();
  const auto ask = "fleet ask loosened --from " + fleet.address;
  auto outcome = fleet.trial.run(ask);
  CHECK(outcome.code == 3);
  CHECK_THAT(outcome.said(), ContainsSubstring("no fleet in that database yet"));
  REQUIRE(fleet.load({}).code == 0);
  outcome = fleet.trial.run(ask);
  CHECK(outcome.code == 0);
  CHECK_THAT(outcome.said(),
             ContainsSubstring("nothing is loaded yet: boltwitness fleet load --to ADDRESS"));
  CHECK(fleet.trial.run(ask + " --machine GB-1").code == 0);
  fleet.query("INSERT INTO fleet.step (step) VALUES (99)");
  for (const auto& command : {ask, "fleet load --to " + fleet.address}) {
    outcome = fleet.trial.run(command);
    CHECK(outcome.code == 3);
    CHECK_THAT(outcome.said(), ContainsSubstring("step 99"));
  }
}

}  // namespace asking_test
