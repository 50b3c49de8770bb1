// Killed at any moment of commands of every kind: each line that was told is there, no command is
// half done, the logbook fits, and nothing half-made stays behind.

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <random>

#include "logbook/logbook.h"
#include "logbook/verification.h"
#include "support/catch.h"
#include "support/child_program.h"
#include "support/content_of.h"
#include "support/every_deed.h"
#include "support/torture.h"
#include "support/trial.h"

namespace kill_test {

namespace {

namespace fs = std::filesystem;

// A command line, and how many lines it adds where it is done.
struct Deed {
  std::string command;
  std::size_t lines = 1;
};

// The logbook in a folder of its own. What is asked of it is always possible: each deed is about
// names of its own, by the number of the trial.
class Workplace {
 public:
  Workplace() {
    Trial trial;
    trial.environment["BOLTWITNESS_LOG"] = path();
    trial.done("start " + path() + " --machine 'pump 4'");
    trial.done("wrench TW1 --range '5..60 N·m' --graduation '0.5 N·m'");
    trial.done(
        "joint J01 --holds cover --size M8 --grade 8.8 --count 4 --spec '25 N·m' --source x");
    trial.done("joint J03 --holds ring --size M8 --grade 8.8 --count 400");
    trial.done("joint J02 --holds hood --size M8 --grade 8.8 --count 4 --spec '25 N·m' --source x");
    std::ofstream(folder_.file("copy.json")) << trial.done("export").out;
    fs::create_directory(folder_.file("stick"));
  }

  [[nodiscard]] std::string path() const { return folder_.file("p4.bolts"); }
  [[nodiscard]] const TemporaryFolder& folder() const { return folder_; }

  Deed deed(std::size_t number) {
    const auto own = std::to_string(number);
    switch (number % 14) {
      case 0:
        return {"joint K" + own +
                    " --holds hood --size M8 --grade 8.8 --count 4 --spec '25 N·m' "
                    "--source 'drawing 7'",
                2};
      case 1:
        return {"wrench W" + own + " --range '20..200 N·m' --graduation '1 N·m'"};
      case 2:
        return {"item C" + own + " --what clips --count 3"};
      case 3:
        return {"fluid oil" + own + " --drained '1 L'"};
      case 4:
        return {"hold-point H" + own + " --what dead --before J02"};
      case 5:
        return {"found J01/1 20s 25o 26p --wrench TW1"};
      case 6:
        return {"out J03/" + std::to_string(number / 14 + 1)};
      case 7:
        return {"strike " + std::to_string(lines()) + " --why 'another machine'"};
      case 8:
        write_rows(own);
        return {"import " + folder_.file("rows.csv"), 30};
      case 9:
        return {"start " + folder_.file("new" + own + ".bolts") + " --machine GB-1", 0};
      case 10:
        return {"import " + folder_.file("copy.json") + " --log " +
                    folder_.file("again" + own + ".bolts"),
                0};
      case 11:
        return {"backup " + folder_.file("stick") + " --keep 2", 0};
      case 12:
        return {"export --to " + folder_.file("out" + own + ".json"), 0};
      default:
        fs::copy_file(BOLTWITNESS_SAVED "/version_7.bolts", folder_.file("old" + own + ".bolts"));
        return {"item C" + own + " --what clips --count 3 --log " +
                    folder_.file("old" + own + ".bolts"),
                0};
    }
  }

  ProgramOutcome run(const std::string& command, std::optional<std::chrono::microseconds> life) {
    auto words = words_of(command);
    if (command.find("--log") == command.npos) words.insert(words.end(), {"--log", path()});
    words.insert(words.end(), {"--by", "KB"});
    return run_program_in({.life = life}, words);
  }

  [[nodiscard]] std::size_t lines() const {
    return static_cast<std::size_t>(logbook::Logbook::open_to_read(path()).last_line());
  }

  // What lies anywhere in the folder and does not fit, or is half made; empty where nothing is.
  [[nodiscard]] std::string wrong_with_files() const {
    for (const auto& file : fs::recursive_directory_iterator(folder_.path())) {
      const auto name = file.path().filename().string();
      if (name.starts_with(".writing-")) continue;
      if (name.ends_with(".bolts") || name.find(".bolts.schema-") != name.npos) {
        if (!logbook::verify(file.path().string()).is_as_written()) return name + " does not fit";
      }
      if (name.starts_with("out") && fs::file_size(file) < 100) return name + " is half written";
    }
    return {};
  }

  [[nodiscard]] std::size_t left_over() const {
    std::size_t count = 0;
    for (const auto& file : fs::recursive_directory_iterator(folder_.path())) {
      if (file.path().filename().string().starts_with(".writing-")) ++count;
    }
    return count;
  }

  // What is looked at no more, so that the next look is short.
  void tidy() const {
    for (const auto& file : fs::directory_iterator(folder_.path())) {
      const auto name = file.path().filename().string();
      if (name.starts_with("new") || name.starts_with("again") || name.starts_with("old") ||
          name.starts_with("out")) {
        fs::remove(file);
      }
    }
  }

 private:
  void write_rows(const std::string& own) const {
    std::ofstream rows(folder_.file("rows.csv"));
    rows << "joint,holds,size,grade,count\n";
    for (int i = 0; i < 30; ++i) rows << "R" << own << '-' << i << ",plate,M8,8.8,4\n";
  }

  TemporaryFolder folder_;
};

}  // namespace

TEST_CASE("kills at random moments of commands of every kind take no line that was told",
          "[program][torture]") {
  Workplace place;
  std::mt19937 random(20260602);
  // Most of the life of a command is its beginning and says nothing.
  std::uniform_real_distribution<double> share_of_life(0.2, 1.1);
  std::map<std::size_t, std::chrono::microseconds> took;
  const auto wanted = trials(28, 1000);
  std::size_t kills = 0;
  std::size_t told_and_killed = 0;
  std::size_t faults = 0;
  std::string first;
  for (std::size_t number = 0; kills < wanted && number < 4 * wanted; ++number) {
    const auto before = place.lines();
    const auto deed = place.deed(number);
    std::optional<std::chrono::microseconds> life;
    const auto kind = number % 14;
    if (const auto known = took.find(kind); known != took.end()) {
      life = std::chrono::duration_cast<std::chrono::microseconds>(known->second *
                                                                   share_of_life(random));
    }
    const auto start = std::chrono::steady_clock::now();
    const auto outcome = place.run(deed.command, life);
    if (!life) {
      took[kind] = std::chrono::duration_cast<std::chrono::microseconds>(
          std::chrono::steady_clock::now() - start);
    }
    const auto after = place.lines();
    const bool was_told = outcome.code == 0 || outcome.out.find("line ") != std::string::npos;
    if (!outcome.code) ++kills;
    if (!outcome.code && was_told) ++told_and_killed;
    std::string wrong = place.wrong_with_files();
    // A strike may find that the line before is one already, where what came between was killed.
    if (outcome.code && *outcome.code != 0 && *outcome.code != 1) wrong = "exit: " + outcome.err;
    if (after != before && after != before + deed.lines) wrong = "half done";
    if (was_told && after != before + deed.lines) wrong = "told, and not there";
    if (!wrong.empty() && faults++ == 0) first = deed.command + ": " + wrong;
    place.tidy();
  }
  // The next command that makes a file in a folder removes what was left there.
  for (const auto* command : {"backup ", "export --to "}) {
    const auto to = std::string(command) == "backup " ? place.folder().file("stick")
                                                      : place.folder().file("last.json");
    CHECK(place.run(command + to, std::nullopt).code == 0);
  }
  if (place.left_over() > 0 && faults++ == 0) first = "half-made files are left";
  tell_torture(
      "kill -9 of writing commands", kills,
      faults == 0 ? std::to_string(told_and_killed) + " killed after they had told: there" : first,
      faults);
  INFO(first);
  CHECK(faults == 0);
  CHECK(kills == wanted);
}

namespace {

// The folder of a job as it was before each deed of every kind, to be laid out again.
class Stages {
 public:
  struct Stage {
    TypedDeed deed;
    std::size_t lines_before = 0;
    std::size_t lines_after = 0;
    std::map<fs::path, std::string> files;  // before it
    std::chrono::microseconds took = {};
  };

  Stages() {
    ::setenv("XDG_DATA_HOME", folder_.file("own").c_str(), 1);
    for (const auto& deed : every_deed(folder_, path())) {
      Stage stage{deed, lines(), 0, files(), {}};
      const auto begun = std::chrono::steady_clock::now();
      const auto outcome = run(stage, std::nullopt);
      stage.took = std::chrono::duration_cast<std::chrono::microseconds>(
          std::chrono::steady_clock::now() - begun);
      INFO(deed.command << outcome.err);
      REQUIRE(outcome.code == 0);
      stage.lines_after = lines();
      stages.push_back(stage);
    }
  }
  ~Stages() { ::unsetenv("XDG_DATA_HOME"); }
  Stages(const Stages&) = delete;
  Stages& operator=(const Stages&) = delete;

  void lay_out(const Stage& stage) const {
    for (const auto& entry : fs::directory_iterator(folder_.path())) fs::remove_all(entry);
    for (const auto& [file, content] : stage.files) {
      fs::create_directories((folder_.path() / file).parent_path());
      std::ofstream(folder_.path() / file, std::ios::binary) << content;
    }
    // A private key that others can read is not used.
    if (fs::exists(folder_.file("own"))) {
      for (const auto& entry : fs::recursive_directory_iterator(folder_.file("own"))) {
        fs::permissions(entry, entry.is_directory()
                                   ? fs::perms::owner_all
                                   : fs::perms::owner_read | fs::perms::owner_write);
      }
    }
    fs::create_directories(folder_.file("stick"));
  }

  ProgramOutcome run(const Stage& stage, std::optional<std::chrono::microseconds> life) const {
    auto words = words_of(stage.deed.command);
    if (stage.deed.command.find("--log") == std::string::npos) {
      words.insert(words.end(), {"--log", path()});
    }
    words.insert(words.end(), {"--by", "KB"});
    const auto typed = folder_.file("typed");
    std::ofstream(typed) << stage.deed.typed;
    return run_program_in({.in = typed.c_str(), .life = life}, words);
  }

  [[nodiscard]] std::size_t lines() const {
    if (!fs::exists(path())) return 0;
    return static_cast<std::size_t>(logbook::Logbook::open_to_read(path()).last_line());
  }

  // The first logbook of the folder, or copy of one, that is not as it was written.
  [[nodiscard]] std::string wrong_with_files() const {
    for (const auto& file : fs::recursive_directory_iterator(folder_.path())) {
      const auto name = file.path().filename().string();
      if (name.starts_with(".writing-") || file.path().string().find(".bolts") == name.npos ||
          name.ends_with("-wal") || name.ends_with("-shm") || name.ends_with("-journal")) {
        continue;
      }
      if (!logbook::verify(file.path().string()).is_as_written()) return name + " does not fit";
    }
    return {};
  }

  std::vector<Stage> stages;

 private:
  [[nodiscard]] std::string path() const { return folder_.file("p4.bolts"); }
  [[nodiscard]] std::map<fs::path, std::string> files() const {
    std::map<fs::path, std::string> all;
    for (const auto& entry : fs::recursive_directory_iterator(folder_.path())) {
      if (!entry.is_regular_file()) continue;
      all[fs::relative(entry.path(), folder_.path())] = content_of(entry.path());
    }
    return all;
  }

  TemporaryFolder folder_;
};

}  // namespace

TEST_CASE("killed in any deed, it is there or can be done again", "[program][torture][slow]") {
  const Stages job;
  std::mt19937 random(20260602);
  // Most of the life of a command is its beginning and says nothing.
  std::uniform_real_distribution<double> share_of_life(0.2, 1.1);
  const auto wanted = trials(job.stages.size(), 40 * job.stages.size());
  std::size_t kills = 0;
  std::size_t there = 0;
  std::size_t faults = 0;
  std::string first;
  for (std::size_t number = 0; kills < wanted && number < 4 * wanted; ++number) {
    const auto& stage = job.stages[number % job.stages.size()];
    job.lay_out(stage);
    const auto outcome = job.run(stage, std::chrono::duration_cast<std::chrono::microseconds>(
                                            stage.took * share_of_life(random)));
    std::string wrong = job.wrong_with_files();
    const auto after = job.lines();
    const bool adds = stage.lines_after > stage.lines_before;
    if (!outcome.code) ++kills;
    if (outcome.code && *outcome.code != 0) wrong = "exit: " + outcome.err;
    if (after != stage.lines_before && after != stage.lines_after) wrong = "half done";
    // A guide is answered line by line; what it asks is not yet told.
    const bool was_told = outcome.code == 0 || (stage.deed.typed.empty() && !outcome.out.empty());
    if (adds && was_told && after != stage.lines_after) wrong = "told, and not there";
    if (adds && after == stage.lines_after) ++there;
    if (adds && after == stage.lines_before) {
      const auto again = job.run(stage, std::nullopt);
      if (again.code != 0) wrong = "refused afterwards: " + again.err;
      if (job.lines() != stage.lines_after) wrong = "done again, and not there";
    }
    if (!wrong.empty() && faults++ == 0) first = stage.deed.command + ": " + wrong;
  }
  tell_torture(
      "kill -9 in every deed", kills,
      faults == 0 ? std::to_string(there) + " done by then, the others done afterwards" : first,
      faults);
  INFO(first);
  CHECK(faults == 0);
  CHECK(kills == wanted);
}

TEST_CASE("killed in the midst of a merge, a logbook is as it was or merged",
          "[program][torture]") {
  constexpr std::size_t kEach = 200;  // lines on each side
  const TemporaryFolder folder;
  const auto ready = folder.file("ready.bolts");
  const auto apart = folder.file("apart.bolts");
  const auto path = folder.file("p4.bolts");
  {
    Trial trial;
    trial.done("start " + ready + " --machine 'pump 4'");
    fs::copy_file(ready, apart);
    const std::vector<std::string> logs = {ready, apart};
    for (std::size_t side = 0; side < logs.size(); ++side) {
      const auto rows = folder.file("rows.csv");
      std::ofstream table(rows);
      table << "joint,holds,size,grade,count\n";
      for (std::size_t i = 0; i < kEach; ++i)
        table << "R" << side << '-' << i << ",hood,M8,8.8,4\n";
      table.close();
      trial.done("import " + rows + " --log " + logs[side]);
    }
  }
  std::mt19937 random(20260602);
  std::uniform_real_distribution<double> share_of_life(0.3, 1.05);
  std::optional<std::chrono::microseconds> took;
  const auto wanted = trials(5, 200);
  std::size_t kills = 0;
  std::size_t merged = 0;
  std::size_t faults = 0;
  std::string first;
  for (std::size_t number = 0; kills < wanted && number < 4 * wanted; ++number) {
    for (const auto& file : fs::directory_iterator(folder.path())) {
      if (file.path().filename().string().starts_with("p4.bolts")) fs::remove(file);
    }
    fs::copy_file(ready, path);
    std::optional<std::chrono::microseconds> life;
    if (took)
      life = std::chrono::duration_cast<std::chrono::microseconds>(*took * share_of_life(random));
    const auto start = std::chrono::steady_clock::now();
    const auto outcome =
        run_program_in({.life = life}, {"merge", apart, "--log", path, "--by", "KB"});
    if (!took) {
      took = std::chrono::duration_cast<std::chrono::microseconds>(
          std::chrono::steady_clock::now() - start);
    }
    if (!outcome.code) ++kills;
    std::string wrong;
    const auto lines = static_cast<std::size_t>(logbook::Logbook::open_to_read(path).last_line());
    const bool is_merged = lines == 1 + 2 * kEach;
    if (is_merged && !outcome.code) ++merged;
    if (!is_merged && lines != 1 + kEach) wrong = std::to_string(lines) + " lines";
    if (!is_merged && (outcome.code == 0 || !outcome.out.empty())) wrong = "told, and not there";
    if (!logbook::verify(path).fits()) wrong = "does not fit";
    const auto kept = path + ".before-merge";
    if (is_merged && !fs::exists(kept)) wrong = "merged, and no copy of before";
    if (fs::exists(kept) && (!logbook::verify(kept).fits() ||
                             logbook::Logbook::open_unchanged(kept).last_line() != 1 + kEach)) {
      wrong = "the copy of before is not as it was";
    }
    if (!wrong.empty() && faults++ == 0) first = wrong;
  }
  tell_torture(
      "kill -9 in the midst of a merge", kills,
      faults == 0 ? std::to_string(merged) + " merged by then, the others as they were" : first,
      faults);
  INFO(first);
  CHECK(faults == 0);
  CHECK(kills == wanted);
}

}  // namespace kill_test
