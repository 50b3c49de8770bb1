// The golden transcripts: whole commands with everything they print and return. They prove that
// nothing moved; whether it is right is read in the diff. scripts/regenerate_golden rewrites them.

#include "support/transcript.h"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "support/case_for.h"
#include "support/catch.h"
#include "support/content_of.h"
#include "support/places.h"

namespace transcript_test {

namespace {

namespace fs = std::filesystem;

std::vector<fs::path> transcripts() {
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(BOLTWITNESS_GOLDEN)) {
    if (entry.path().extension() == ".txt") files.push_back(entry.path());
  }
  std::ranges::sort(files);
  return files;
}

void replay(const fs::path& file) {
  const auto expected = content_of(file);
  const auto actual = replayed(expected, BOLTWITNESS_SAMPLES);
  CHECK(actual.find("\n= ") != std::string::npos);
  if (std::getenv("BOLTWITNESS_REGENERATE") == nullptr) {
    CHECK(first_difference(expected, actual) == "");
  } else if (actual != expected) {
    std::ofstream(file) << actual;
    WARN("rewritten: tests/golden/" << file.filename().string());
  }
}

// Each transcript is a case of its own, found when the program starts.
const bool kAdded = [] {
  const auto files = transcripts();
  for (const auto& file : files) {
    add_case("golden " + file.stem().string(), "[golden]", [file] { replay(file); });
  }
  return !files.empty();
}();

}  // namespace

TEST_CASE("there are transcripts", "[cli]") { CHECK(kAdded); }

TEST_CASE("a transcript whose answer changed is noticed", "[cli]") {
  const std::string right = "$ boltwitness convert '1 kN·m' --to N·m\n| 1000 N·m\n= 0\n";
  CHECK(first_difference(right, replayed(right, BOLTWITNESS_SAMPLES)) == "");
  for (const std::string wrong : {
           "$ boltwitness convert '1 kN·m' --to N·m\n| 1001 N·m\n= 0\n",
           "$ boltwitness convert '1 kN·m' --to N·m\n= 0\n",
           "$ boltwitness convert '1 kN·m' --to N·m\n| 1000 N·m\n! a note\n= 0\n",
           "$ boltwitness convert '1 kN·m' --to N·m\n| 1000 N·m\n= 1\n",
       }) {
    CHECK_THAT(first_difference(wrong, replayed(wrong, BOLTWITNESS_SAMPLES)),
               ContainsSubstring("expected: ") && ContainsSubstring("actual: "));
  }
}

}  // namespace transcript_test
