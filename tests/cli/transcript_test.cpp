// The golden transcripts: whole commands with everything they print and return. They prove that
// nothing moved; whether it is right is read in the diff. scripts/regenerate_golden rewrites them.

#include "support/transcript.h"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "support/catch.h"

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

std::string content_of(const fs::path& file) {
  std::ostringstream content;
  content << std::ifstream(file).rdbuf();
  return content.str();
}

}  // namespace

TEST_CASE("every command answers as its golden transcript says", "[cli][golden]") {
  const auto files = transcripts();
  REQUIRE_FALSE(files.empty());
  for (const auto& file : files) {
    INFO("tests/golden/" << file.filename().string());
    const auto expected = content_of(file);
    const auto actual = replayed(expected, BOLTWITNESS_SAMPLES);
    CHECK(actual.find("\n= ") != std::string::npos);
    if (std::getenv("BOLTWITNESS_REGENERATE") != nullptr) {
      if (actual != expected) {
        std::ofstream(file) << actual;
        WARN("rewritten: tests/golden/" << file.filename().string());
      }
    } else {
      CHECK(first_difference(expected, actual) == "");
    }
  }
}

TEST_CASE("a transcript whose answer changed is noticed", "[cli][golden]") {
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
