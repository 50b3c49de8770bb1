// An answer never contradicts itself: what it says was written stands in the logbook, and where it
// says that nothing was, or fails, nothing does; for each deed, wherever the disk is full.

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <regex>

#include "logbook/logbook.h"
#include "support/catch.h"
#include "support/child_program.h"
#include "support/temporary_folder.h"
#include "support/trial.h"

namespace full_disk_test {

namespace {

namespace fs = std::filesystem;

// A logbook on which every deed below can be done.
class ReadyLogbook {
 public:
  ReadyLogbook() : path_(folder_.file("p4.bolts")) {
    Trial trial;
    trial.environment["BOLTWITNESS_LOG"] = path_;
    trial.done("start " + path_ + " --machine 'pump 4'");
    trial.done("wrench TW1 --range '5..60 N·m' --graduation '0.5 N·m'");
    for (const std::string code : {"J01", "J02", "J05"}) {  // lines 3 to 8
      trial.done("joint " + code +
                 " --holds cover --size M8x1.25 --grade 8.8 --count 4 --spec "
                 "'25 N·m' --source 'drawing 7'");
    }
    trial.done("out J01/1-4");                // 9
    trial.done("out J02/1 --broke sheared");  // 10
    trial.done("item CL1 --what clips --count 3");
    trial.done("hold-point HV --what dead --before J02");
    while (trial.run("tighten J01/1-2").code == 0) continue;
    trial.done("stripe J01/1 --wiped");
    std::ofstream(folder_.file("rows.csv"))
        << "joint,holds,size,grade,count\nJ07,plate,M8,8.8,4\nJ08,guard,M8,8.8,4\n";
    fs::copy_file(path_, folder_.file("apart.bolts"));
    trial.done("item CL9 --what pins --count 2 --log " + folder_.file("apart.bolts"));
  }

  [[nodiscard]] std::string copy() const {
    for (const auto* beside : {"copy.bolts", "copy.bolts-wal", "copy.bolts-shm",
                               "copy.bolts-journal", "copy.bolts.before-merge"}) {
      fs::remove(folder_.file(beside));
    }
    fs::copy_file(path_, folder_.file("copy.bolts"));
    return folder_.file("copy.bolts");
  }
  [[nodiscard]] const TemporaryFolder& folder() const { return folder_; }

 private:
  TemporaryFolder folder_;
  std::string path_;
};

std::vector<std::string> deeds(const TemporaryFolder& folder) {
  return {"wrench TW2 --range '20..200 N·m' --graduation '1 N·m'",
          "joint J03 --holds hood --size M8 --grade 8.8 --count 2 --spec '25 N·m'",
          "out J05/2-3 --bag B2",
          "found J01/1 20s 25o 26p --wrench TW1",
          "tighten J01/3-4 --pass 1",
          "stripe J01/2 --wiped",
          "recheck J01/1 aligned",
          "fluid oil --drained '1 L'",
          "item CL1 --back 2",
          "hold-point HV --pass",
          "renew J02/1 --arrived",
          "settle break-loose:J02/01 --as renew --why sheared",
          "strike 10 --why 'another joint'",
          "out J01/1-4 --bag B9 --replace 9 --why 'another bag'",
          "import " + folder.file("rows.csv"),
          "merge " + folder.file("apart.bolts")};
}

ProgramOutcome done_on(const std::string& log, const std::string& deed, const Room& room) {
  auto words = words_of(deed);
  words.insert(words.end(), {"--log", log, "--by", "KB"});
  return run_program_in(room, words);
}

std::int64_t lines_in(const std::string& log) {
  return logbook::Logbook::open_to_read(log).last_line();
}

// The highest line that the answer says it wrote; 0 where it says none.
std::int64_t line_told(const std::string& answer) {
  static const std::regex kLine("line ([0-9]+)");
  std::int64_t highest = 0;
  for (auto match = std::sregex_iterator(answer.begin(), answer.end(), kLine);
       match != std::sregex_iterator(); ++match) {
    highest = std::max<std::int64_t>(highest, std::stoll((*match)[1]));
  }
  return highest;
}

}  // namespace

TEST_CASE("on a full disk a deed is done and told, or neither", "[program][slow]") {
  const ReadyLogbook ready;
  int failed = 0;
  int done = 0;
  for (const auto& deed : deeds(ready.folder())) {
    const auto size = fs::file_size(ready.copy());
    for (const std::size_t limit :
         {std::size_t{0}, std::size_t{4096}, std::size_t{32768}, size / 2, size, size + 4096,
          size + 16384, size + (std::size_t{1} << 22)}) {
      const auto log = ready.copy();
      const auto before = lines_in(log);
      const auto outcome = done_on(log, deed, {.largest_file = limit});
      INFO(deed << " with files of at most " << limit << " bytes\n" << outcome.out << outcome.err);
      REQUIRE(outcome.code);
      const auto after = lines_in(log);
      if (*outcome.code == 0) {
        CHECK(after > before);
        if (!deed.starts_with("import")) CHECK(line_told(outcome.out) == after);
        CHECK(outcome.err.find("nothing was written") == std::string::npos);
        ++done;
      } else {
        CHECK(*outcome.code == 3);
        CHECK(after == before);
        CHECK(outcome.out.empty());
        CHECK_THAT(outcome.err, ContainsSubstring("ulimit"));
        CHECK_FALSE(fs::exists(log + ".before-merge"));
        ++failed;
      }
    }
  }
  // Both ends of it were seen, for each deed.
  CHECK(done >= static_cast<int>(deeds(ready.folder()).size()));
  CHECK(failed >= static_cast<int>(deeds(ready.folder()).size()));
}

TEST_CASE("a copy that may not grow to its size is told, and none is left", "[program]") {
  const ReadyLogbook ready;
  const auto log = ready.copy();
  const auto folder = ready.folder().path() / "copies";
  const auto copies = [&] { return std::distance(fs::directory_iterator(folder), {}); };
  fs::create_directory(folder);
  const auto size = fs::file_size(log);
  const auto outcome = done_on(log, "backup " + folder.string(), {.largest_file = size / 2});
  CHECK(outcome.code == 3);
  CHECK(outcome.out.empty());
  CHECK_THAT(outcome.err,
             ContainsSubstring("could not be copied to") && ContainsSubstring("ulimit"));
  CHECK(copies() == 0);
  CHECK(done_on(log, "backup " + folder.string(), {.largest_file = 4 * size}).code == 0);
  CHECK(copies() == 1);
}

TEST_CASE("whatever writes a file names the limit on files that stops it, and leaves none",
          "[program]") {
  const ReadyLogbook ready;
  const auto log = ready.copy();
  const auto copy = ready.folder().file("whole.json");
  REQUIRE(done_on(log, "export --to " + copy, {}).code == 0);
  const auto folder = ready.folder().path() / "out";
  fs::create_directories(folder / "man");
  const auto in_folder = [&](const std::string& name) { return " " + (folder / name).string(); };
  const std::vector<std::string> writing = {"export --to" + in_folder("x.json"),
                                            "export findings --to" + in_folder("x.csv"),
                                            "report --out" + in_folder("r.html"),
                                            "sheet --out" + in_folder("s.html"),
                                            "labels --out" + in_folder("l.html"),
                                            "sequence --html --out" + in_folder("q.html"),
                                            "help --html --out" + in_folder("h.html"),
                                            "help --man" + in_folder("man"),
                                            "sign",
                                            "backup" + in_folder("")};
  const auto stays_empty = [&] {
    return std::none_of(fs::recursive_directory_iterator(folder), {},
                        [](const auto& file) { return !file.is_directory(); });
  };
  for (const std::size_t limit : {0U, 32U}) {
    const Room room{.largest_file = limit, .environment = {{"XDG_DATA_HOME", folder.string()}}};
    for (const auto& command : writing) {
      const auto outcome = done_on(log, command, room);
      INFO(command << " with files of at most " << limit << " bytes\n" << outcome.err);
      CHECK(outcome.code == 3);
      CHECK(outcome.out.empty());
      CHECK_THAT(outcome.err, ContainsSubstring("(ulimit -f)"));
      CHECK(stays_empty());
    }
    for (const auto& words :
         {std::vector<std::string>{"start", (folder / "n.bolts").string(), "--machine", "x"},
          {"import", copy, "--log", (folder / "n.bolts").string()}}) {
      const auto outcome = run_program_in(room, words);
      INFO(words.front() << ' ' << outcome.err);
      CHECK(outcome.code == 3);
      CHECK_THAT(outcome.err, ContainsSubstring("(ulimit -f)"));
      CHECK(stays_empty());
    }
  }
  // An answer that goes into a file.
  const auto answer = ready.folder().file("answer");
  std::ofstream(answer) << "";
  const auto outcome = done_on(log, "report", {.largest_file = 32, .out = answer.c_str()});
  CHECK(outcome.code == 3);
  CHECK_THAT(outcome.err, ContainsSubstring("ulimit"));
}

TEST_CASE("a deed whose answer is lost says so and not that nothing was written",
          "[program][slow]") {
  REQUIRE(fs::exists("/dev/full"));
  const ReadyLogbook ready;
  for (const auto& deed : deeds(ready.folder())) {
    const auto log = ready.copy();
    const auto before = lines_in(log);
    const auto outcome = done_on(log, deed, {.out = "/dev/full"});
    INFO(deed << '\n' << outcome.err);
    REQUIRE(outcome.code);
    CHECK(*outcome.code != 0);
    CHECK(lines_in(log) > before);
    CHECK(outcome.err.find("nothing was written") == std::string::npos);
    CHECK_THAT(outcome.err, ContainsSubstring("written"));
  }
}

}  // namespace full_disk_test
