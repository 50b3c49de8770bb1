// A hold point that is shut stops every deed on the joints behind it, at every door; what was done
// before now has happened and is recorded, judged by the state at that time.

#include <fmt/format.h>

#include <fstream>
#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/trial.h"

namespace hold_points_stop_deeds_test {

namespace {

// A lid with four positions that are out, behind a hold point that was never passed.
class ShutLid {
 public:
  ShutLid() {
    trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("p2.bolts");
    trial.done("start " + trial.folder().file("p2.bolts") + " --machine 'pump 2'");
    trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
    trial.done("joint J06 --holds lid --size M12x1.75 --grade 8.8 --count 4 --spec '80 N·m'");
    trial.done("out J06/1-4");
  }
  void shut() { trial.done("hold-point HV --what 'rails dead' --before J06"); }
  int line_count() { return static_cast<int>(trial.done("history --json").json()["lines"].size()); }

  std::string table(const std::string& name, const std::string& text) {
    const auto file = trial.folder().file(name);
    std::ofstream(file) << text;
    return file;
  }

  Trial trial;
};

constexpr const char* kBehind = "J06 is behind a hold point: hold point HV (rails dead)";

}  // namespace

TEST_CASE("no deed of now passes a hold point that is shut", "[act]") {
  ShutLid lid;
  for (int pass = 0; pass < 3; ++pass) lid.trial.done("tighten J06/1");
  lid.shut();
  const int before = lid.line_count();
  for (const std::string command :
       {"found J06/2 60s 70o --wrench TW2", "found J06/2 --next --wrench TW2", "tighten J06/2",
        "stripe J06/1 --wiped", "bench J06/2"}) {
    INFO(command);
    lid.trial.typed = "s\nq\n";
    const auto refused = lid.trial.run(command);
    CHECK(refused.code == 1);
    CHECK_THAT(refused.said(), ContainsSubstring(kBehind));
  }
  const auto findings = lid.table("findings.csv", "address,readings,wrench\nJ06/2,60s 70o,TW2\n");
  const auto tightenings =
      lid.table("tightenings.csv", "address,pass,wrench,set\nJ06/2,1,TW2,56\n");
  for (const auto& file : {findings, tightenings}) {
    INFO(file);
    const auto refused = lid.trial.run("import " + file);
    CHECK(refused.code == 2);
    CHECK_THAT(refused.said(), ContainsSubstring(kBehind));
  }
  CHECK(lid.line_count() == before);
  lid.trial.done("hold-point HV --pass");
  lid.trial.done("found J06/2 60s 70o --wrench TW2");
  lid.trial.done("stripe J06/1 --wiped");
}

TEST_CASE("what was done before now behind a shut hold point is recorded and held up by the audit",
          "[act]") {
  ShutLid lid;
  lid.shut();
  lid.trial.now += std::chrono::hours(2);
  const auto an_hour_ago = record::write_utc(lid.trial.now - std::chrono::hours(1));
  const auto recorded = lid.trial.done("found J06/2 60s 70o --wrench TW2 --at " + an_hour_ago);
  CHECK_THAT(recorded.said(),
             ContainsSubstring(kBehind) && ContainsSubstring("recorded as it happened"));
  const auto audit = lid.trial.run("audit");
  CHECK(audit.code == 1);
  CHECK_THAT(audit.out, ContainsSubstring("behind hold point HV"));
}

TEST_CASE("a row of a table dated behind a shut hold point is held up as the command's line is",
          "[act]") {
  ShutLid lid;
  lid.shut();
  lid.trial.now += std::chrono::hours(3);
  const auto hours_ago = [&](int hours) {
    return record::write_utc(lid.trial.now - std::chrono::hours(hours));
  };
  const auto rows = [&](const std::string& at) {
    return lid.table("tightenings.csv",
                     "address,pass,wrench,set,by,at\nJ06/2,1,TW2,56,KB," + at + "\n");
  };
  const auto shut_by = [&] {
    std::string ids;
    const auto audit = lid.trial.run("audit --json").json();
    for (const auto& each : audit["deviations"]) ids += each["id"].get<std::string>() + ' ';
    return ids;
  };
  // Behind it while it was shut.
  lid.trial.done("import " + rows(hours_ago(2)));
  CHECK_THAT(shut_by(), ContainsSubstring("hold-point:J06:HV "));
  // Passed afterwards with an earlier time: the passing counts from then, and what was done before
  // that stays named; a passing before it was put up is refused as ever.
  lid.trial.done("hold-point HV --pass --at " + hours_ago(1));
  CHECK_THAT(shut_by(), ContainsSubstring("hold-point:J06:HV "));
  CHECK(lid.trial.run("hold-point HV --pass --at " + hours_ago(9)).code == 1);
  // A hold point that is put up late with an earlier time: the rows before it are named too.
  lid.trial.done("hold-point LOAD --what 'on stands' --before J06 --at " + hours_ago(2));
  lid.trial.done("import " +
                 lid.table("more.csv",
                           "address,pass,wrench,set,by,at\nJ06/3,1,TW2,56,KB," +
                               record::write_utc(lid.trial.now - std::chrono::minutes(90)) + "\n"));
  CHECK_THAT(shut_by(), ContainsSubstring("hold-point:J06:LOAD"));
  // Ahead of the clock nothing is taken.
  const auto ahead =
      lid.trial.run("import " + rows(record::write_utc(lid.trial.now + std::chrono::hours(2))));
  CHECK(ahead.code != 0);
}

TEST_CASE("what was done while the hold point stood open is no matter after it is shut", "[act]") {
  ShutLid lid;
  lid.shut();
  lid.trial.done("hold-point HV --pass");
  lid.trial.now += std::chrono::hours(2);
  const auto an_hour_ago = record::write_utc(lid.trial.now - std::chrono::hours(1));
  lid.trial.done("hold-point HV --close");
  const auto recorded = lid.trial.done("found J06/2 60s 70o --wrench TW2 --at " + an_hour_ago);
  CHECK(recorded.said().find("hold point") == std::string::npos);
}

}  // namespace hold_points_stop_deeds_test
