// What is loaded is what the logbooks hold, however often and however it was stopped.

#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <thread>

#include "logbook/logbook.h"
#include "support/catch.h"
#include "support/child_program.h"
#include "support/fleet_trial.h"
#include "support/forged_logbook.h"
#include "support/job_builder.h"
#include "support/places.h"
#include "support/random_logbook.h"
#include "support/torture.h"
#include "support/whole_copy.h"

namespace loading_test {

namespace {

// A joint of so many fasteners, each tested; other torques for another seed.
record::Job job_of(int fasteners, int seed) {
  JobBuilder builder;
  builder.wrench().joint("J06", fasteners).specified("J06");
  builder.out(fmt::format("J06/1-{}", fasteners));
  for (int position = 1; position <= fasteners; ++position) {
    const int setting = 70 + (position * 7 + seed * 3) % 20;
    builder.found(fmt::format("J06/{}", position), fmt::format("{}s {}o", setting - 4, setting));
  }
  return builder.job();
}

using Counts = std::map<std::string, std::size_t>;

// Lines by kind, struck ones apart, as the file has them.
Counts counts_of(const std::string& path) {
  Counts counts;
  for (const auto& line : copy_of(logbook::Logbook::open_to_read(path)).lines) {
    ++counts[line.kind + (line.struck ? " struck" : "")];
  }
  return counts;
}

// The same as the fleet has them.
Counts counts_in(const FleetTrial& fleet, const std::string& machine) {
  Counts counts;
  std::istringstream rows(fleet.query(
      fmt::format("SELECT kind || CASE WHEN struck_by IS NULL THEN '' ELSE ' struck' END, count(*) "
                  "FROM fleet.every_line WHERE machine = '{}' GROUP BY 1",
                  machine)));
  for (std::string row; std::getline(rows, row);) {
    const auto bar = row.find('|');
    counts[row.substr(0, bar)] = std::stoul(row.substr(bar + 1));
  }
  return counts;
}

// All that is in the fleet, but for when it was loaded.
std::string all_of(const FleetTrial& fleet) {
  std::string all = fleet.query(
      "SELECT logbook, machine, file, lines, ends, loaded_at FROM fleet.logbook ORDER BY logbook");
  for (const auto* table : {"line", "finding", "fastener", "tightening", "calibration", "look"}) {
    all += fleet.query(fmt::format(
        "SELECT md5(coalesce(string_agg(t::text, E'\\n' ORDER BY t::text), '')), count(*), "
        "max(t.xmin::text) FROM (SELECT *, xmin FROM fleet.{}) t",
        table));
  }
  return all;
}

}  // namespace

TEST_CASE("the fleet holds every line of a logbook, and loading twice changes nothing", "[fleet]") {
  auto* servers = PostgresServers::running();
  if (servers == nullptr) return;
  FleetTrial fleet(*servers);
  std::vector<std::string> names;
  for (unsigned seed = 1; seed <= 4; ++seed) {
    names.push_back(fmt::format("random{}.bolts", seed));
    make_random_logbook(fleet.path(names.back()), seed);
  }
  for (const auto* old : {"version_1.bolts", "version_7.bolts"}) {
    names.emplace_back(old);
    std::filesystem::copy_file(std::filesystem::path(BOLTWITNESS_SAVED) / old, fleet.path(old));
  }
  const auto first = fleet.load(names, " --json");
  INFO(first.err);
  REQUIRE(first.code == 0);
  const auto told = first.json();
  CHECK(told["loaded"] == 6);
  for (const auto& each : told["logbooks"]) {
    const std::string file = each["file"];
    CHECK(each["state"] == "new");
    const auto by_file = fleet.query(fmt::format(
        "SELECT count(*) FROM fleet.line JOIN fleet.logbook USING (logbook) WHERE file = '{}'",
        std::filesystem::path(file).filename().string()));
    CHECK(by_file == std::to_string(logbook::Logbook::open_to_read(file).last_line()));
  }
  const auto before = all_of(fleet);
  const auto second = fleet.load(names, " --json");
  REQUIRE(second.code == 0);
  const auto told_again = second.json();
  CHECK(told_again["new_lines"] == 0);
  for (const auto& each : told_again["logbooks"]) CHECK(each["state"] == "nothing new");
  CHECK(all_of(fleet) == before);
}

TEST_CASE("what came to a logbook since is added, and what it changes is worked out anew",
          "[fleet]") {
  auto* servers = PostgresServers::running();
  if (servers == nullptr) return;
  FleetTrial fleet(*servers);
  write_logbook(fleet.path("gb1.bolts"), "GB-1", job_of(5, 1));
  REQUIRE(fleet.load({"gb1.bolts"}).code == 0);
  CHECK(fleet.query("SELECT count(found_nm), count(*) FROM fleet.found") == "5|5");
  const auto log = " --log " + fleet.path("gb1.bolts");
  fleet.trial.done("strike 9 --why 'another fastener'" + log);
  fleet.trial.done("out J06/1-5 --broke loose --replace 5 --why 'looked again'" + log);
  const auto more = fleet.load({"gb1.bolts"}, " --json");
  REQUIRE(more.code == 0);
  CHECK(more.json()["logbooks"][0]["state"] == "grown");
  CHECK(counts_in(fleet, "GB-1") == counts_of(fleet.path("gb1.bolts")));
  CHECK(fleet.query("SELECT count(found_nm), count(*) FROM fleet.found") == "4|5");
  CHECK(fleet.query("SELECT count(*) FROM fleet.current_line WHERE kind = 'finding'") == "4");
  CHECK(fleet.query("SELECT line FROM fleet.every_line WHERE struck_by IS NOT NULL ORDER BY 1") ==
        "5\n9");
}

TEST_CASE("a struck line that cannot be read is in the fleet like any that is struck", "[fleet]") {
  auto* servers = PostgresServers::running();
  if (servers == nullptr) return;
  FleetTrial fleet(*servers);
  const auto file = fleet.path("gb1.bolts");
  write_logbook(file, "GB-1", job_of(5, 1));
  const auto log = " --log " + file;
  fleet.trial.done("fluid oil --drained '2 L'" + log);
  const auto line = std::to_string(logbook::Logbook::open_to_read(file).last_line());
  fleet.trial.done("strike " + line + " --why 'it was 3 L'" + log);
  forge(file, "UPDATE fluid SET amount_typed = 'seven'");
  const auto loaded = fleet.load({"gb1.bolts"}, " --json");
  INFO(loaded.out << loaded.err);
  REQUIRE(loaded.code == 0);
  CHECK(counts_in(fleet, "GB-1") == counts_of(file));
  CHECK(fleet.query("SELECT line, says -> 'fluid' -> 0 ->> 'amount_typed' FROM fleet.every_line "
                    "WHERE struck_by IS NOT NULL") == line + "|seven");
  CHECK(fleet.query("SELECT count(found_nm) FROM fleet.found") == "5");
}

TEST_CASE(
    "copies are one logbook: an older one brings nothing, two that went apart are merged first",
    "[fleet]") {
  auto* servers = PostgresServers::running();
  if (servers == nullptr) return;
  FleetTrial fleet(*servers);
  namespace fs = std::filesystem;
  write_logbook(fleet.path("gb1.bolts"), "GB-1", job_of(4, 1));
  fs::copy_file(fleet.path("gb1.bolts"), fleet.path("phone.bolts"));
  fleet.trial.done("item CL1 --what clips --count 6 --log " + fleet.path("gb1.bolts"));
  REQUIRE(fleet.load({"gb1.bolts"}).code == 0);
  const auto before = all_of(fleet);
  auto outcome = fleet.load({"phone.bolts"}, " --json");
  CHECK(outcome.code == 0);
  CHECK(outcome.json()["logbooks"][0]["state"] == "older copy");
  fleet.trial.device = "00000000-0000-4000-8000-000000000002";
  fleet.trial.done("fluid oil --drained '1 L' --log " + fleet.path("phone.bolts"));
  outcome = fleet.load({"phone.bolts"}, " --json");
  CHECK(outcome.code == 1);
  CHECK_THAT(outcome.json()["logbooks"][0]["why"].get<std::string>(), ContainsSubstring("merge"));
  CHECK(all_of(fleet) == before);
  fleet.trial.done("merge " + fleet.path("phone.bolts") + " --log " + fleet.path("gb1.bolts"));
  REQUIRE(fleet.load({"gb1.bolts"}).code == 0);
  CHECK(counts_in(fleet, "GB-1") == counts_of(fleet.path("gb1.bolts")));
}

TEST_CASE("a logbook that does not fit is refused by name, and the others go on", "[fleet]") {
  auto* servers = PostgresServers::running();
  if (servers == nullptr) return;
  FleetTrial fleet(*servers);
  write_logbook(fleet.path("a.bolts"), "GB-1", job_of(2, 1));
  write_logbook(fleet.path("b.bolts"), "GB-2", job_of(2, 2));
  std::ofstream(fleet.path("c.bolts")) << "no logbook";
  // One letter of what a line says is another.
  std::string bytes(std::filesystem::file_size(fleet.path("b.bolts")), '\0');
  std::ifstream(fleet.path("b.bolts"), std::ios::binary)
      .read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  const auto at = bytes.rfind("Shop Manual");
  REQUIRE(at != bytes.npos);
  bytes[at] = 's';
  std::ofstream(fleet.path("b.bolts"), std::ios::binary) << bytes;
  const auto outcome = fleet.load({"b.bolts", "c.bolts", "missing.bolts", "a.bolts"});
  CHECK(outcome.code == 1);
  CHECK_THAT(outcome.told(), ContainsSubstring("1 logbook loaded") &&
                                 ContainsSubstring("REFUSED " + fleet.path("b.bolts")) &&
                                 ContainsSubstring("verify") &&
                                 ContainsSubstring("REFUSED " + fleet.path("c.bolts")) &&
                                 ContainsSubstring("missing.bolts"));
  CHECK(fleet.query("SELECT machine FROM fleet.logbook") == "GB-1");
}

TEST_CASE("text that would act is inert on its way through the fleet", "[fleet]") {
  auto* servers = PostgresServers::running();
  if (servers == nullptr) return;
  FleetTrial fleet(*servers);
  const std::string nasty = "'; DROP SCHEMA fleet CASCADE; -- \\. \\N \"$$ {1,2}";
  auto builder = JobBuilder().wrench().joint("J06", 2).specified("J06").out(
      "J06/1-2", record::BreakLoose::AlreadyLoose);
  builder.last_joint().holds = nasty;
  write_logbook(fleet.path("a.bolts"), nasty, builder.job());
  const auto loaded = fleet.load({"a.bolts"});
  INFO(loaded.err);
  REQUIRE(loaded.code == 0);
  const auto rows = fleet.ask("loosened");
  REQUIRE(rows.size() == 2);
  CHECK(rows[0]["machine"] == nasty);
  CHECK(rows[0]["holds"] == nasty);
  CHECK(fleet.query(
            "SELECT says #>> '{joint,0,holds}' FROM fleet.current_line WHERE kind = 'joint'") ==
        nasty);
}

TEST_CASE("a hundred logbooks, killed three times while loading, are loaded whole",
          "[fleet][torture]") {
  auto* servers = PostgresServers::running();
  if (servers == nullptr) return;
  FleetTrial fleet(*servers);
  constexpr int kLogbooks = 100;
  const int fasteners = static_cast<int>(trials(20, 2000));
  std::vector<std::string> names;
  std::vector<std::string> command = {"fleet", "load", "--to", fleet.address};
  for (int number = 1; number <= kLogbooks; ++number) {
    names.push_back(fmt::format("m{}.bolts", number));
    write_logbook(fleet.path(names.back()), fmt::format("GB-{}", number),
                  job_of(fasteners, number));
    command.push_back(fleet.path(names.back()));
  }
  const auto lines_there = [&] {
    return std::stoul(fleet.query("SELECT count(*) FROM fleet.line"));
  };
  std::size_t before = 0;
  for (int kill = 1; kill <= 3; ++kill) {
    TerminalProgram program(command);
    const auto until = std::chrono::steady_clock::now() + std::chrono::minutes(2);
    std::size_t there = 0;
    while ((there = lines_there()) <= before && std::chrono::steady_clock::now() < until) {
      std::this_thread::sleep_for(std::chrono::milliseconds(20));
    }
    program.kill();
    CHECK_FALSE(program.ended().has_value());
    CHECK(there > before);
    before = there;
  }
  const auto outcome = fleet.load(names, " --json");
  INFO(outcome.err);
  REQUIRE(outcome.code == 0);
  CHECK(outcome.json()["new_lines"] > 0);
  std::size_t lines = 0;
  for (int number = 1; number <= kLogbooks; ++number) {
    const auto path = fleet.path(names[static_cast<std::size_t>(number) - 1]);
    lines += static_cast<std::size_t>(logbook::Logbook::open_to_read(path).last_line());
    if (number % 20 == 0) {
      CHECK(counts_in(fleet, fmt::format("GB-{}", number)) == counts_of(path));
    }
  }
  CHECK(lines_there() == lines);
  CHECK(fleet.query("SELECT count(*), count(found_nm) FROM fleet.found") ==
        fmt::format("{}|{}", kLogbooks * fasteners, kLogbooks * fasteners));
  CHECK(fleet.query("SELECT count(*) FROM fleet.logbook WHERE ends <> ''") == "100");
}

TEST_CASE("a password reaches neither the list of programs nor a log", "[fleet]") {
  auto* servers = PostgresServers::running();
  if (servers == nullptr) return;
  FleetTrial fleet(*servers);
  write_logbook(fleet.path("a.bolts"), "GB-1", job_of(2, 1));
  const auto loopback = PostgresServers::by_loopback(fleet.address);
  const auto load = "fleet load --to " + loopback + ' ' + fleet.path("a.bolts");
  const auto without = fleet.trial.run(load);
  CHECK(without.code == 3);
  const auto file = fleet.path("passwords");
  std::ofstream(file) << "127.0.0.1:*:*:fleet:" << PostgresServers::kPassword << '\n';
  std::filesystem::permissions(file, std::filesystem::perms(0600));
  ::setenv("PGPASSFILE", file.c_str(), 1);
  const auto with = fleet.trial.run(load);
  ::unsetenv("PGPASSFILE");
  INFO(with.err);
  CHECK(with.code == 0);
  for (const auto& text : {without.err, with.err, with.out, servers->log()}) {
    CHECK_THAT(text, !ContainsSubstring(PostgresServers::kPassword));
  }
}

TEST_CASE("lines of the fleet are not changed or removed by hand", "[fleet]") {
  auto* servers = PostgresServers::running();
  if (servers == nullptr) return;
  FleetTrial fleet(*servers);
  write_logbook(fleet.path("a.bolts"), "GB-1", job_of(2, 1));
  REQUIRE(fleet.load({"a.bolts"}).code == 0);
  for (const auto* statement : {"UPDATE fleet.line SET by_whom = 'X'", "DELETE FROM fleet.line",
                                "TRUNCATE fleet.line", "DELETE FROM fleet.line_03"}) {
    INFO(statement);
    CHECK(fleet.query(fmt::format("DO $$ BEGIN {}; RAISE NOTICE 'done'; EXCEPTION WHEN OTHERS THEN "
                                  "PERFORM set_config('trial.said', SQLERRM, false); END $$; "
                                  "SELECT left(current_setting('trial.said'), 23)",
                                  statement)) == "lines are never changed");
  }
}

}  // namespace loading_test
