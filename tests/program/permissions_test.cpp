// A logbook that may be read and not written: whoever it is, reading commands answer, writing ones
// say what may not be written, and nothing is left behind. Root is held back by no permission, so
// that the program runs as nobody then (support/child_program.h).

#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>

#include "support/catch.h"
#include "support/child_program.h"
#include "support/forged_logbook.h"
#include "support/pictures.h"
#include "support/torture.h"
#include "support/trial.h"

namespace permissions_test {

namespace {

namespace fs = std::filesystem;

constexpr unsigned kOwner = 65533;
constexpr unsigned kNobody = 65534;

class Shared {
 public:
  Shared() : folder_(trial_.folder().path() / "shared"), log_((folder_ / "p4.bolts").string()) {
    fs::create_directory(folder_);
    trial_.environment["BOLTWITNESS_LOG"] = log_;
    trial_.done("start " + log_ + " --machine 'pump 4'");
    trial_.done("wrench TW1 --range '5..60 N·m' --graduation '0.5 N·m'");
    trial_.done("joint J01 --holds cover --size M8 --grade 8.8 --count 4 --spec '25 N·m'");
    trial_.done("export --to " + beside("whole.json"));
    fs::copy_file(log_, beside("apart.bolts"));
    trial_.done("out J01/1 --log " + beside("apart.bolts"));
    std::ofstream(beside("rows.csv")) << "joint,holds,size,grade,count\nJ07,plate,M8,8.8,4\n";
    std::ofstream(beside("p.png"), std::ios::binary) << plain_png(24, 16, 90);
    fs::create_directory(beside("own"));
    allow(beside("own"), 0777);
    allow(trial_.folder().path(), 0755);
  }
  ~Shared() { allow(folder_, 0755); }
  Shared(const Shared&) = delete;
  Shared& operator=(const Shared&) = delete;

  void forge_logbook(const std::string& sql) const { forge(log_, sql); }
  void allow_folder(unsigned mode) const { allow(folder_, mode); }
  void allow_logbook(unsigned mode) const { allow(log_, mode); }
  void give_logbook_to(unsigned user) const {
    if (::chown(log_.c_str(), user, user) != 0) throw std::runtime_error("it cannot be given away");
  }

  // Beside the folder, where others may read.
  [[nodiscard]] std::string beside(const std::string& name) const {
    return trial_.folder().file(name);
  }
  [[nodiscard]] std::string in_folder(const std::string& name) const {
    return (folder_ / name).string();
  }

  [[nodiscard]] ProgramOutcome run(const std::string& line, bool names_its_logbook = false,
                                   unsigned user = kNobody) const {
    auto words = words_of(line);
    if (!names_its_logbook) words.insert(words.end(), {"--log", log_});
    return run_program_in({.environment = {{"XDG_DATA_HOME", beside("own")},
                                           {"XDG_STATE_HOME", beside("own")},
                                           {"BOLTWITNESS_BY", "KB"}},
                           .as_user = user},
                          words);
  }

  [[nodiscard]] std::map<std::string, std::string> files() const {
    std::map<std::string, std::string> files;
    for (const auto& file : fs::directory_iterator(folder_)) {
      std::ifstream stream(file.path(), std::ios::binary);
      files[file.path().filename().string()] =
          std::string(std::istreambuf_iterator<char>(stream), {});
    }
    return files;
  }

 private:
  static void allow(const fs::path& file, unsigned mode) {
    if (::chmod(file.c_str(), mode) != 0) throw std::runtime_error("no permissions can be given");
  }

  Trial trial_;
  fs::path folder_;
  std::string log_;
};

const std::vector<std::string>& reading() {
  static const std::vector<std::string> kReading = {
      "show J01", "history", "search cover",    "verify", "audit",  "sequence", "compare",
      "export",   "report",  "export findings", "sheet",  "labels", "recheck",  "merge --check"};
  return kReading;
}

// What writes into the logbook.
std::vector<std::string> writing(const Shared& shared) {
  return {"out J01/1 --bag B1",
          "joint J02 --holds hood --size M8 --grade 8.8 --count 2",
          "found J01/1 20s 25o 26p --wrench TW1",
          "tighten J01/1 --pass 1",
          "fluid oil --drained '1 L'",
          "hold-point HV --what dead --before J01",
          "settle no-source:J01 --as use-as-is --why x",
          "strike 3 --why 'another joint'",
          "sign",
          "photo J01/1 " + shared.beside("p.png"),
          "import " + shared.beside("rows.csv"),
          "merge " + shared.beside("apart.bolts")};
}

void check_answers(const Shared& shared) {
  for (auto line : reading()) {
    if (line == "merge --check") line = "merge " + shared.beside("apart.bolts") + " --check";
    const auto outcome = shared.run(line);
    INFO(line << '\n' << outcome.err);
    REQUIRE(outcome.code);
    CHECK(*outcome.code <= 1);
    CHECK_FALSE(outcome.out.empty());
  }
}

void check_refused(const Shared& shared, const std::string& line, const std::string& names,
                   bool names_its_logbook = false) {
  const auto outcome = shared.run(line, names_its_logbook);
  INFO(line << '\n' << outcome.err);
  CHECK(outcome.code == 3);
  CHECK(outcome.out.empty());
  CHECK_THAT(outcome.err, ContainsSubstring(names) && ContainsSubstring("permissions"));
}

void check_writes_nothing(const Shared& shared) {
  for (const auto& line : writing(shared)) check_refused(shared, line, "p4.bolts");
}

}  // namespace

TEST_CASE("what may only be read is read, and every writing command says so", "[program]") {
  const Shared shared;
  shared.allow_logbook(0444);
  shared.allow_folder(0555);
  const auto before = shared.files();
  check_answers(shared);
  check_writes_nothing(shared);
  check_refused(shared, "export --to " + shared.in_folder("x.json"), "shared");
  check_refused(shared, "report --out " + shared.in_folder("r.html"), "shared");
  check_refused(shared, "backup " + shared.in_folder(""), "shared");
  check_refused(shared, "start " + shared.in_folder("n.bolts") + " --machine x", "shared", true);
  check_refused(shared,
                "import " + shared.beside("whole.json") + " --log " + shared.in_folder("n.bolts"),
                "shared", true);
  CHECK(shared.files() == before);
}

TEST_CASE("a logbook that may not be written in a folder that may is left as it is", "[program]") {
  const Shared shared;
  shared.allow_logbook(0444);
  shared.allow_folder(0777);
  const auto before = shared.files();
  check_answers(shared);
  check_writes_nothing(shared);
  CHECK(shared.files() == before);
}

TEST_CASE("who may only read a logbook is told of a value that no table of it takes", "[program]") {
  const Shared shared;
  shared.forge_logbook("UPDATE joint SET count = -1");
  for (const unsigned mode : {0666U, 0444U}) {
    shared.allow_logbook(mode);
    shared.allow_folder(0777);
    for (const auto* line : {"verify", "status", "show J01"}) {
      const auto ran = shared.run(line);
      const Outcome outcome{ran.code.value_or(-1), ran.out, ran.err};
      const auto answer = outcome.told() + outcome.said();
      INFO(mode << ' ' << line << '\n' << answer);
      CHECK(outcome.code == (std::string(line) == "verify" ? 1 : 3));
      CHECK_THAT(answer, ContainsSubstring("CHECK constraint failed in joint") &&
                             !ContainsSubstring("boltwitness strike"));
    }
  }
}

TEST_CASE("a logbook that may be written in a folder that may not is read", "[program]") {
  const Shared shared;
  shared.allow_logbook(0666);
  shared.allow_folder(0555);
  const auto before = shared.files();
  check_answers(shared);
  check_writes_nothing(shared);
  CHECK(shared.files() == before);
}

TEST_CASE("who may only read never keeps the owner from writing, nor is kept from reading",
          "[program][torture]") {
  if (::geteuid() != 0) {
    WARN("skipped: only root can run the program as two users");
    return;
  }
  const Shared shared;
  shared.give_logbook_to(kOwner);
  shared.allow_logbook(0644);
  shared.allow_folder(0777);
  const auto writes = trials(15, 300);
  const pid_t owner = ::fork();
  REQUIRE(owner >= 0);
  if (owner == 0) {
    int refused = 0;
    for (std::size_t i = 0; i < writes; ++i) {
      const auto line = "item C" + std::to_string(i) + " --what clips --count 3";
      if (shared.run(line, false, kOwner).code != 0) ++refused;
    }
    ::_exit(std::min(refused, 100));
  }
  std::size_t reads = 0;
  std::size_t kept_from_reading = 0;
  int status = 0;
  while (::waitpid(owner, &status, WNOHANG) == 0) {
    ++reads;
    if (shared.run("history").code != 0) ++kept_from_reading;
  }
  const auto kept_from_writing =
      static_cast<std::size_t>(WIFEXITED(status) ? WEXITSTATUS(status) : 1);
  tell_torture("one writing while another, who may not, reads", writes + reads,
               std::to_string(kept_from_writing) + " writes and " +
                   std::to_string(kept_from_reading) + " reads refused",
               kept_from_writing + kept_from_reading);
  CHECK(kept_from_writing == 0);
  CHECK(kept_from_reading == 0);
}

TEST_CASE("a logbook that may not be read is named with its permissions", "[program]") {
  const Shared shared;
  shared.allow_logbook(0200);
  shared.allow_folder(0777);
  check_refused(shared, "history", "p4.bolts");
  check_refused(shared, "out J01/1", "p4.bolts");
  check_refused(shared, "verify", "p4.bolts");
  CHECK(shared.files().size() == 1);
}

}  // namespace permissions_test
