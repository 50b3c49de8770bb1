// status reminds of a copy when more than the work of a day would be lost with the disk.

#include <filesystem>
#include <fstream>

#include "support/catch.h"
#include "support/trial.h"

namespace copy_reminder_test {

namespace {

namespace fs = std::filesystem;

class Job {
 public:
  Job() : path(trial.folder().file("gb1.bolts")), stick(trial.folder().file("stick")) {
    fs::create_directory(stick);
    trial.environment["BOLTWITNESS_LOG"] = path;
    trial.environment["XDG_STATE_HOME"] = trial.folder().file("own");
    trial.done("start " + path + " --machine GB-1");
    work();
  }
  void work() { trial.done("item C" + std::to_string(++item_) + " --what clips --count 3"); }
  void next_day() { trial.now += std::chrono::hours(24); }
  [[nodiscard]] std::string reminder() { return trial.run("status").said(); }

  Trial trial;
  std::string path;
  std::string stick;

 private:
  int item_ = 0;
};

}  // namespace

TEST_CASE("the work of a day is not reminded of, that of the day before is", "[cli]") {
  Job job;
  CHECK(job.reminder().empty());
  job.next_day();
  CHECK_THAT(job.reminder(), ContainsSubstring("no copy of this logbook is known of") &&
                                 ContainsSubstring("2 lines would be lost") &&
                                 ContainsSubstring("boltwitness backup FOLDER"));
  CHECK_THAT(job.trial.run("status --json").said(), ContainsSubstring("no copy"));
}

TEST_CASE("a copy on a stick is remembered when the stick is gone", "[cli]") {
  Job job;
  job.trial.done("backup " + job.stick);
  fs::remove_all(job.stick);
  job.next_day();
  CHECK(job.reminder().empty());
  job.work();
  CHECK(job.reminder().empty());
  job.next_day();
  CHECK_THAT(job.reminder(), ContainsSubstring("the newest copy is of 2026-06-01") &&
                                 ContainsSubstring("1 line came since, the first on 2026-06-02"));
}

TEST_CASE("a copy beside the logbook counts, whoever made it", "[cli]") {
  Job job;
  job.trial.environment["XDG_STATE_HOME"] = job.trial.folder().file("another's");
  job.trial.done("backup");
  job.trial.environment["XDG_STATE_HOME"] = job.trial.folder().file("own");
  job.next_day();
  CHECK(job.reminder().empty());
  // What lies there and is no copy of it does not.
  for (const auto& file : fs::directory_iterator(job.trial.folder().file("copies"))) {
    std::ofstream(file.path()) << "a note";
  }
  CHECK_THAT(job.reminder(), ContainsSubstring("no copy of this logbook is known of"));
}

TEST_CASE("a copy in the folder of the logbook counts, and is no second logbook there", "[cli]") {
  Job job;
  job.trial.environment.erase("XDG_STATE_HOME");
  job.trial.environment.erase("BOLTWITNESS_LOG");
  job.trial.done("backup " + job.trial.folder().path().string());
  job.next_day();
  CHECK(job.reminder().empty());
  // However the logbook is named.
  const auto before = fs::current_path();
  fs::current_path(job.trial.folder().path());
  CHECK(job.trial.run("status --log gb1.bolts").said().empty());
  fs::current_path(before);
  job.work();
  CHECK(job.trial.done("history --json --log " + job.path).out ==
        job.trial.done("history --json").out);
  // Of a file with another name nobody knows which of the two is meant.
  fs::copy_file(job.path, job.trial.folder().file("gb1-copy.bolts"));
  CHECK_THAT(job.trial.run("status").said(), ContainsSubstring("more than one logbook lies here") &&
                                                 !ContainsSubstring("gb1-2026"));
}

TEST_CASE("where nothing can be remembered nothing fails", "[cli]") {
  Job job;
  job.trial.environment["XDG_STATE_HOME"] = "/proc";
  job.trial.done("backup " + job.stick);
  job.next_day();
  CHECK_THAT(job.reminder(), ContainsSubstring("no copy of this logbook is known of"));
  job.trial.environment.erase("XDG_STATE_HOME");
  CHECK_FALSE(job.reminder().empty());
}

}  // namespace copy_reminder_test
