#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>

#include "support/catch.h"
#include "support/content_of.h"
#include "support/trial.h"

namespace compare_with_test {

namespace {

namespace fs = std::filesystem;

void fill(Trial& trial, const std::string& file, const std::string& last) {
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file(file);
  trial.done("start " + trial.folder().file(file) + " --machine 'GB-1 of " + file + "'");
  trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  trial.done("joint J06 --holds cap --size M12 --grade 8.8 --count 6 --spec '80 N·m' --source p1");
  for (int i = 1; i <= 5; ++i) {
    trial.done("found J06/" + std::to_string(i) + " 78s 80o --wrench TW2");
  }
  trial.done("found J06/6 " + last + " --wrench TW2");
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
  Trial trial;
  fill(trial, "old.bolts", "78s 80o");
  fill(trial, "new.bolts", "38s 40o");
  const auto text = trial.done("compare --with " + trial.folder().file("old.bolts")).out;
  CHECK_THAT(text, ContainsSubstring("this: GB-1 of new.bolts") &&
                       ContainsSubstring("other: GB-1 of old.bolts"));
  CHECK_THAT(text, ContainsSubstring("median ratio 1.000 of 6") &&
                       ContainsSubstring("0.500  -3.9  OUTSIDE, CHANGED") &&
                       ContainsSubstring("control band 0.651 to 1.183 about 0.917") &&
                       ContainsSubstring("rough, 20 or more are usual"));
  const auto json = trial.done("compare --json --with " + trial.folder().file("old.bolts")).json();
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
  Trial trial;
  fill(trial, "old.bolts", "78s 80o");
  fill(trial, "new.bolts", "38s 40o");
  const auto before = content_of(trial.folder().file("old.bolts"));
  const auto files = files_in(trial.folder().path());
  trial.done("compare --with " + trial.folder().file("old.bolts"));
  CHECK(content_of(trial.folder().file("old.bolts")) == before);
  CHECK(files_in(trial.folder().path()) == files);
  fs::permissions(trial.folder().file("old.bolts"), fs::perms::owner_read);
  trial.done("compare --with " + trial.folder().file("old.bolts"));
}

TEST_CASE("compare --with refuses what is no other logbook", "[cli]") {
  Trial trial;
  fill(trial, "new.bolts", "78s 80o");
  const auto itself = trial.run("compare --with " + trial.folder().file("new.bolts"));
  CHECK(itself.code == 1);
  CHECK_THAT(itself.said(), ContainsSubstring("this logbook itself"));
  CHECK(trial.run("compare --with " + trial.folder().file("none.bolts")).code == 3);
  std::ofstream(trial.folder().file("text.bolts")) << "no logbook";
  CHECK(trial.run("compare --with " + trial.folder().file("text.bolts")).code == 3);
  CHECK(trial.run("compare --all-units --with " + trial.folder().file("text.bolts")).code == 2);
  fill(trial, "old.bolts", "78s 80o");
  CHECK(trial.run("compare J66 --with " + trial.folder().file("new.bolts")).code == 1);
}

}  // namespace compare_with_test
