// What the fuzzers were begun with and what they found (tests/fuzz/corpus, a folder for each
// target) goes through the same readers here, with any compiler: nothing crashes, and what is taken
// keeps its promises.

#include <filesystem>

#include "fuzz/target.h"
#include "support/catch.h"
#include "support/content_of.h"
#include "support/places.h"

namespace corpus_test {

namespace {

namespace fs = std::filesystem;

int replayed(const fuzz::Target& target, const fs::path& folder) {
  int count = 0;
  for (const auto& entry : fs::directory_iterator(folder)) {
    INFO(entry.path().string());
    CHECK_NOTHROW(target.run(content_of(entry.path())));
    ++count;
  }
  return count;
}

}  // namespace

TEST_CASE("what the fuzzers were begun with and found keeps every promise", "[fuzz]") {
  for (const auto& target : fuzz::targets()) {
    INFO(target.name);
    CHECK(replayed(target, fs::path(BOLTWITNESS_CORPUS) / target.name) > 0);
    // Whole logbooks are begun with those of earlier versions.
    if (target.name == "logbook_file") CHECK(replayed(target, BOLTWITNESS_SAVED) > 0);
  }
}

TEST_CASE("a promise that is not kept is noticed", "[fuzz]") {
  CHECK_NOTHROW(fuzz::promise(true, "kept"));
  CHECK_THROWS_AS(fuzz::promise(false, "not kept"), fuzz::Broken);
}

}  // namespace corpus_test
