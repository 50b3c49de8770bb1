#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "support/bench.h"
#include "support/catch.h"

namespace {

namespace fs = std::filesystem;

void fill(Bench& bench, const std::string& file, const std::string& last) {
  bench.environment["BOLTWITNESS_LOG"] = bench.folder().file(file);
  bench.done("start " + bench.folder().file(file) + " --machine 'GB-1 of " + file + "'");
  bench.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  bench.done("joint J06 --holds cap --size M12 --grade 8.8 --count 6 --spec '80 N·m' --source p1");
  for (int i = 1; i <= 5; ++i) {
    bench.done("found J06/" + std::to_string(i) + " 78s 80o --wrench TW2");
  }
  bench.done("found J06/6 " + last + " --wrench TW2");
}

std::string bytes_of(const fs::path& file) {
  std::ostringstream bytes;
  bytes << std::ifstream(file, std::ios::binary).rdbuf();
  return bytes.str();
}

std::set<std::string> files_in(const fs::path& folder) {
  std::set<std::string> names;
  for (const auto& entry : fs::directory_iterator(folder)) {
    names.insert(entry.path().filename().string());
  }
  return names;
}

}  // namespace

TEST_CASE("compare --with shows the drift between two teardowns", "[cli]") {
  Bench bench;
  fill(bench, "old.bolts", "78s 80o");
  fill(bench, "new.bolts", "38s 40o");
  const auto text = bench.done("compare --with " + bench.folder().file("old.bolts")).out;
  CHECK_THAT(text, ContainsSubstring("this: GB-1 of new.bolts") &&
                       ContainsSubstring("other: GB-1 of old.bolts"));
  CHECK_THAT(text, ContainsSubstring("median ratio 1.000 of 6") &&
                       ContainsSubstring("0.500  OUTSIDE") &&
                       ContainsSubstring("control band 0.651 to 1.183 about 0.917") &&
                       ContainsSubstring("rough, 20 or more are usual"));
  const auto json = bench.done("compare --json --with " + bench.folder().file("old.bolts")).json();
  CHECK(json["other_machine"] == "GB-1 of old.bolts");
  REQUIRE(json["rows"].size() == 6);
  CHECK(json["rows"][5]["this_nm"] == 40.0);
  CHECK(json["rows"][5]["other_nm"] == 80.0);
  CHECK(json["rows"][5]["ratio"] == 0.5);
  CHECK(json["rows"][5]["outside"] == true);
  CHECK(json["rows"][0]["outside"] == false);
  CHECK(json["joints"][0]["median"] == 1.0);
  CHECK(json["band"]["of"] == 6);
}

TEST_CASE("the other logbook stays byte for byte, and nothing is left beside it", "[cli]") {
  Bench bench;
  fill(bench, "old.bolts", "78s 80o");
  fill(bench, "new.bolts", "38s 40o");
  const auto before = bytes_of(bench.folder().file("old.bolts"));
  const auto files = files_in(bench.folder().path());
  bench.done("compare --with " + bench.folder().file("old.bolts"));
  CHECK(bytes_of(bench.folder().file("old.bolts")) == before);
  CHECK(files_in(bench.folder().path()) == files);
  fs::permissions(bench.folder().file("old.bolts"), fs::perms::owner_read);
  bench.done("compare --with " + bench.folder().file("old.bolts"));
}

TEST_CASE("compare --with refuses what is no other logbook", "[cli]") {
  Bench bench;
  fill(bench, "new.bolts", "78s 80o");
  const auto itself = bench.run("compare --with " + bench.folder().file("new.bolts"));
  CHECK(itself.code == 1);
  CHECK_THAT(itself.said(), ContainsSubstring("this logbook itself"));
  CHECK(bench.run("compare --with " + bench.folder().file("none.bolts")).code == 3);
  std::ofstream(bench.folder().file("text.bolts")) << "no logbook";
  CHECK(bench.run("compare --with " + bench.folder().file("text.bolts")).code == 3);
  CHECK(bench.run("compare --all-units --with " + bench.folder().file("text.bolts")).code == 2);
  fill(bench, "old.bolts", "78s 80o");
  CHECK(bench.run("compare J66 --with " + bench.folder().file("new.bolts")).code == 1);
}
