// The next step that the first screen prints is a whole command that moves the job on: it is typed
// as it was printed, with what only a person knows put in, until the job is finished.

#include <algorithm>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>

#include "support/catch.h"
#include "support/trial.h"

namespace next_step_test {

namespace {

const std::string kJoint =
    " --size M12 --length 60mm --grade 8.8 --count 2 --spec '80 N·m' --source 'm p. 1'";

// A logbook with a wrench, which nothing has been entered into.
class Job {
 public:
  explicit Job(const std::vector<std::string>& commands) {
    trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("m.bolts");
    trial.done("start " + trial.folder().file("m.bolts") + " --machine M");
    trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
    for (const auto& command : commands) trial.done(command);
  }

  nlohmann::json status() { return trial.run("status --json").json(); }
  std::string next() { return status()["next"]["command"]; }

  // Types what is printed until nothing is left; each time something has to have moved. Returns
  // what was printed.
  std::vector<std::string> walk(const std::string& decision) {
    std::vector<std::string> printed;
    for (auto before = status(); !before["next"]["command"].get<std::string>().empty();) {
      const auto command = before["next"]["command"].get<std::string>();
      INFO("next: " << command << "; " << before["next"]["why"].get<std::string>());
      REQUIRE(printed.size() < 30);
      printed.push_back(command);
      const auto answer = type(filled(command, decision));
      INFO(answer.err);
      REQUIRE(answer.code == 0);
      const auto after = status();
      REQUIRE(after != before);
      before = after;
    }
    CHECK(status()["finished"] == true);
    CHECK(trial.run("").code == 0);
    return printed;
  }

  Trial trial;

 private:
  // The gaps that are told as such.
  static std::string filled(std::string command, const std::string& decision) {
    const std::vector<std::pair<std::string, std::string>> gaps = {{"DECISION", decision},
                                                                   {"TEXT", "'looked at'"},
                                                                   {"WHO", "LM"},
                                                                   {"READING", "1240"},
                                                                   {"BAG", "7"},
                                                                   {"TORQUE", "'80 N·m'"},
                                                                   {"DOCUMENT", "'m p. 2'"}};
    for (const auto& [gap, value] : gaps) {
      command = std::regex_replace(command, std::regex("\\b" + gap + "\\b"), value);
    }
    std::ranges::replace(command, '"', '\'');
    return command;
  }

  // What leads through a joint at the keyboard is done in one line instead.
  Outcome type(const std::string& command) {
    std::smatch parts;
    if (std::regex_match(command, parts, std::regex("bench ([A-Z0-9]+).*"))) {
      return trial.run("out " + parts[1].str() + "/1-2 --bag 7");
    }
    if (std::regex_match(command, parts, std::regex("tighten ([A-Z0-9]+)"))) {
      return tighten_next(parts[1].str());
    }
    return trial.run(command);
  }

  // The positions of the step that is next in the joint.
  Outcome tighten_next(const std::string& joint) {
    const auto step = trial.run("tighten --json").json()["next"];
    REQUIRE(step["joint"] == joint);
    const auto where = joint + "/" + std::to_string(step["position"].get<int>());
    const auto pass = " --pass " + std::to_string(step["pass"].get<int>());
    auto answer = trial.run("tighten " + where + pass);
    // What was slackened is looked at.
    if (answer.code != 0) answer = trial.run("tighten " + where + pass + " --seen 'all well'");
    return answer;
  }
};

std::string a1(const std::string& more = "") { return "joint A1 --holds cap" + kJoint + more; }

}  // namespace

TEST_CASE("what has to be decided is printed as the decision, with what there is to choose from",
          "[cli]") {
  Job job({a1(), "out A1/1-2 --bag 1", "found A1/1 28s 30s 32o 34p --wrench TW2"});
  const auto step = job.status()["next"];
  CHECK(step["command"] == "settle found-low:A1/01 --as DECISION --why TEXT");
  CHECK_THAT(step["why"].get<std::string>(),
             ContainsSubstring("use-as-is, re-torque, renew, repair or correct-record?") &&
                 ContainsSubstring("show A1/01"));
  // As it stands it is no decision, and nothing is written.
  const auto literal = job.trial.run("settle found-low:A1/01 --as DECISION --why TEXT");
  CHECK(literal.code == 2);
  CHECK(job.status()["next"] == step);
}

TEST_CASE("only what a rule takes is offered, and a second person where one has to agree",
          "[cli]") {
  Job job({a1(" --critical"), "out A1/1-2 --bag 1", "tighten A1/1-2 --set 120"});
  const auto step = job.status()["next"];
  CHECK(step["command"] == "settle over-torqued:A1 --as DECISION --why TEXT --with WHO");
  CHECK(step["why"].get<std::string>().find("use-as-is") == std::string::npos);
}

TEST_CASE("a job is walked to its end by what is printed, whatever is in the way", "[cli][slow]") {
  struct Way {
    std::vector<std::string> commands;
    std::string decision;
    std::string prints;  // once at least
  };
  const std::vector<std::string> back = {"tighten A1/1-2", "tighten A1/1-2"};
  const auto with = [](std::vector<std::string> first, const std::vector<std::string>& then) {
    first.insert(first.end(), then.begin(), then.end());
    return first;
  };
  const std::string out = "out A1/1-2 --bag 1";
  const std::vector<Way> ways = {
      {{a1()}, "use-as-is", "bench A1"},
      {{a1(), out, "found A1/1 28s 30s 32o 34p --wrench TW2"}, "re-torque", "tighten A1"},
      {{a1(), out, "found A1/1 28s 30s 32o 34p --wrench TW2"},
       "repair",
       "settle found-low:A1/01 --done TEXT"},
      {{a1(), out, "found A1/1 28s 30s 32o 34p --wrench TW2"}, "renew", "renew A1/01 --arrived"},
      {{a1(" --one-time"), out}, "use-as-is", "renew A1 --arrived"},
      {{a1(" --one-time"), out, "tighten A1/1-2", "renew A1 --arrived", "tighten A1/1-2"},
       "use-as-is",
       "out A1/1-2"},
      {{a1(), out + " --broke sheared"}, "renew", "renew A1/1-2 --arrived"},
      {{a1(), out + " --broke loose"}, "re-torque", "tighten A1"},
      {with({a1(), out + " --damaged-thread fastener"}, back), "renew", "renew A1/1-2 --arrived"},
      {{a1(), "out A1/1 --bag 1", "tighten A1/1"}, "use-as-is", "out A1/02"},
      {with({a1(" --critical"), out}, back), "use-as-is", "tighten A1/1-2 --check --by WHO"},
      {with({a1(), out}, {"tighten A1/1-2", "tighten A1/1-2 --set 60"}), "use-as-is",
       "tighten A1/1-2 --pass 2"},
      {{a1(), out, "tighten A1/1", "tighten A1/1-2 --pass 2"}, "use-as-is", "tighten A1"},
      {{a1(), out, "tighten A1/1-2 --set 120"}, "re-torque", "tighten A1"},
      {{a1(), out, "tighten A1/1-2 --set 120"}, "renew", "renew A1/1-2 --arrived"},
      {with(with({a1(), out}, back), {"stripe A1/1-2 --wiped", "recheck A1/1 'turned 20°'"}),
       "use-as-is", "tighten A1"},
      {with(with({a1(), out}, back),
            {"stripe A1/1-2 --wiped", "found A1/1 78s 80o 84p --wrench TW2"}),
       "use-as-is", "stripe A1/01 --wiped"},
      {{a1(), "item CL --what clips --count 2 --before A1", out, "tighten A1/1-2"},
       "use-as-is",
       "item CL --back 2"},
      {{"joint A1 --holds cap --size M12 --grade 8.8 --count 2", out},
       "use-as-is",
       "joint A1 --spec TORQUE --source DOCUMENT"},
      {with({a1()}, back), "use-as-is", "settle never-out:A1 --as DECISION --why TEXT"},
      {{a1(), "out A1/1 --bag 1", "out A1/2 --broke empty"},
       "renew",
       "settle found-empty:A1/02 --as DECISION --why TEXT"},
      {{a1(" --recheck '100 running h'"), out},
       "use-as-is",
       "stripe A1/1-2 --wiped --counter \"READING running h\""}};
  for (const auto& way : ways) {
    INFO(way.commands.front() << " ... " << way.commands.back() << ": " << way.decision);
    Job job(way.commands);
    const auto printed = job.walk(way.decision);
    CHECK(std::ranges::find(printed, way.prints) != printed.end());
    CHECK(std::ranges::find(printed, "audit") == printed.end());
  }
}

TEST_CASE("a look that is overdue is printed with the stripes it is at and the counter", "[cli]") {
  Job job({a1(" --recheck '1 h' --recheck '100 running h'"), "out A1/1-2 --bag 1", "tighten A1/1-2",
           "tighten A1/1-2", "stripe A1/1-2 --wiped --counter '1000 running h'"});
  job.trial.now += std::chrono::hours(2);
  const auto step = job.status()["next"];
  CHECK(step["command"] == "recheck A1/1-2 aligned --counter \"READING running h\"");
  CHECK_THAT(
      step["why"].get<std::string>(),
      ContainsSubstring("turned 15° instead of aligned") &&
          ContainsSubstring("READING is what the machine's counter shows now, in running h"));
  job.walk("use-as-is");
}

TEST_CASE("every place that suggests a stripe asks for the counter that a look goes by", "[cli]") {
  Job job({a1(" --recheck '500 km'"), "out A1/1-2 --bag 1", "tighten A1/1-2", "tighten A1/1-2"});
  const std::string command = "stripe A1/1-2 --wiped --counter \"READING km\"";
  const std::string gap = "READING is what the machine's counter shows now, in km";
  for (const auto* place : {"status", "audit", "recheck A1/1-2 aligned"}) {
    INFO(place);
    const auto answer = job.trial.run(place);
    CHECK_THAT(answer.told() + answer.said(), ContainsSubstring(command) && ContainsSubstring(gap));
  }
  job.trial.typed = "q\n";
  CHECK_THAT(job.trial.run("tighten A1").told(),
             ContainsSubstring(command) && ContainsSubstring(gap));
  job.trial.done("stripe A1/1-2 --wiped --counter '1240 km'");
  CHECK(job.status()["finished"] == true);
  // Where no counter is asked for, none is suggested.
  Job without(
      {a1(" --recheck '7 days'"), "out A1/1-2 --bag 1", "tighten A1/1-2", "tighten A1/1-2"});
  CHECK(without.next() == "stripe A1/1-2 --wiped");
}

TEST_CASE("joints in a circle are told with the state of the job and what mends it", "[cli]") {
  Job job({"joint A1 --holds cap --after B2 --after C3" + kJoint, "joint C3 --holds lid" + kJoint,
           "joint B2 --holds gear --after A1" + kJoint, "out A1/1-2 --bag 1"});
  const auto text = job.trial.run("");
  CHECK(text.code == 1);
  CHECK(text.err.empty());
  CHECK_THAT(text.told(), ContainsSubstring("Not finished: ") &&
                              ContainsSubstring("B2 after A1, A1 after B2") &&
                              ContainsSubstring("to settle: no-order"));
  CHECK_THAT(text.out, ContainsSubstring("\n  A1 "));  // its row
  const auto command = job.next();
  CHECK(command == "joint B2 --replace 7 --without after --why TEXT");
  for (const auto* place : {"sequence", "tighten", "audit", "show A1"}) {
    INFO(place);
    const auto answer = job.trial.run(place);
    CHECK_THAT(answer.told() + answer.said(), ContainsSubstring("boltwitness " + command));
  }
  job.walk("use-as-is");
}

TEST_CASE("what mends a circle keeps the other joints that one waits for", "[cli]") {
  Job job({"joint C3 --holds lid" + kJoint, "joint B2 --holds gear --after A1" + kJoint,
           "joint A1 --holds cap --covers B2 --covers C3" + kJoint});
  CHECK(job.next() == "joint A1 --replace 7 --covers C3 --why TEXT");
  job.trial.done("joint A1 --replace 7 --covers C3 --why 'lies beside it'");
  CHECK_THAT(job.trial.done("sequence A1").told(), ContainsSubstring("covers C3"));
}

TEST_CASE("what was decided waits for the joint that comes first", "[cli]") {
  Job job({a1(" --after B2"), "joint B2 --holds gear" + kJoint, "out A1/1-2 --bag 1",
           "out B2/1-2 --bag 2", "found A1/1 28s 30s 32o 34p --wrench TW2",
           "settle found-low:A1/1 --as re-torque --why settled"});
  const auto step = job.status()["next"];
  CHECK(step["command"] == "tighten B2");
  CHECK_THAT(step["why"].get<std::string>(),
             ContainsSubstring("re-torque at 1") &&
                 ContainsSubstring("A1 comes after B2, and B2 is not finished"));
  const auto printed = job.walk("use-as-is");
  CHECK(std::ranges::find(printed, "tighten A1") > std::ranges::find(printed, "tighten B2"));
}

TEST_CASE("a decision that the audit names no more is struck to get past it", "[cli]") {
  Job job({a1(), "out A1/1-2 --bag 1", "found A1/1 28s 30s 32o 34p --wrench TW2",
           "settle found-low:A1/1 --as repair --why 'clean it'", "strike 6 --why 'another bolt'"});
  CHECK(job.next() == "strike 7 --why TEXT");
  job.walk("use-as-is");
}

TEST_CASE("a late arrival is told alike by every screen until the new ones are in", "[cli]") {
  // What goes back in before the new one is here, whatever it is renewed for.
  const std::vector<std::string> damaged = {a1(),
                                            "out A1/1-2 --bag 1 --damaged-thread fastener",
                                            "tighten A1/1-2",
                                            "renew A1 --arrived",
                                            "tighten A1/1-2",
                                            "stripe A1/1-2 --wiped"};
  const std::vector<std::string> one_time = {a1(" --one-time"), "out A1/1-2 --bag 1",
                                             "tighten A1/1-2",  "renew A1 --arrived",
                                             "tighten A1/1-2",  "stripe A1/1-2 --wiped"};
  for (const auto& commands : {damaged, one_time}) {
    INFO(commands.front());
    Job job(commands);
    CHECK_THAT(job.trial.done("renew").told(), ContainsSubstring("the old one is in: out A1/1-2"));
    CHECK_THAT(
        job.trial.run("status").told(),
        ContainsSubstring("A1/1-2: the old ones went back in before the new ones had arrived"));
    CHECK(job.status()["finished"] == false);
    const auto sequence = job.trial.done("sequence --whole").told();
    CHECK_THAT(sequence, ContainsSubstring("[ ] New fasteners came when the old ones were back in; "
                                           "take those out first: at 1-2"));
    CHECK_THAT(sequence, !ContainsSubstring("New fasteners are here"));
    CHECK_THAT(job.trial.run("tighten A1/1 --pass 2").said(),
               ContainsSubstring("the old fasteners went back in at A1/01 before the new ones had "
                                 "arrived"));
    CHECK_THAT(job.trial.done("report").told(),
               ContainsSubstring("the old one is in: out A1/1-2, then fit the new one"));
    job.walk("use-as-is");
    for (const auto* screen : {"renew", "report", "status"}) {
      CHECK_THAT(job.trial.run(screen).told(), !ContainsSubstring("old one is in"));
    }
    CHECK_THAT(job.trial.done("sequence --whole").told(),
               !ContainsSubstring("take those out first"));
  }
}

TEST_CASE("an arrival entered late with its own time is a renewal that is done", "[cli]") {
  Job job({a1(" --one-time"), "out A1/1-2 --bag 1 --at 2026-05-31T08:00"});
  job.trial.done("tighten A1/1-2 --at 2026-05-31T09:00");
  job.trial.done("renew A1 --arrived --at 2026-05-31T08:30");
  job.trial.done("tighten A1/1-2 --at 2026-05-31T09:10");
  CHECK(job.trial.run("audit --json").json()["ready"] == true);
  CHECK_THAT(job.trial.done("renew").told(), !ContainsSubstring("the old one is in"));
  CHECK(job.next() == "stripe A1/1-2 --wiped");
  CHECK_THAT(job.trial.done("sequence --whole").told(),
             ContainsSubstring("[x] New fasteners are here"));
}

}  // namespace next_step_test
