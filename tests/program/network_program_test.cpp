// What reaches over the network is a program of its own, so that no other command waits until the
// libraries for it are loaded.

#include <fmt/format.h>

#include <array>
#include <cstdio>
#include <filesystem>

#include "support/catch.h"
#include "support/child_program.h"
#include "support/places.h"
#include "support/temporary_folder.h"

namespace network_program_test {

namespace {

namespace fs = std::filesystem;

struct Answer {
  int code = -1;
  std::string text;  // of both streams
};

Answer shell(const std::string& command) {
  Answer answer;
  auto* pipe = ::popen((command + " 2>&1 </dev/null").c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::array<char, 4096> piece{};
  while (const auto size = std::fread(piece.data(), 1, piece.size(), pipe)) {
    answer.text.append(piece.data(), size);
  }
  const int status = ::pclose(pipe);
  if (WIFEXITED(status)) answer.code = WEXITSTATUS(status);
  return answer;
}

fs::path laid(const fs::path& program, const fs::path& folder) {
  fs::create_directories(folder);
  const auto place = folder / program.filename();
  fs::copy_file(program, place);
  return place;
}

constexpr const char* kNetworkProgram = BOLTWITNESS_PROGRAM "-network";

}  // namespace

TEST_CASE("the program that is typed loads no library for the network", "[program]") {
  const auto libraries = shell("LD_TRACE_LOADED_OBJECTS=1 " BOLTWITNESS_PROGRAM).text;
  INFO(libraries);
  CHECK(libraries.find("libsqlite3") != std::string::npos);
  for (const auto* unwanted : {"libpq", "libssl", "libcrypto", "httplib"}) {
    CHECK(libraries.find(unwanted) == std::string::npos);
  }
}

TEST_CASE("serve and fleet are carried out by the program beside it or where it is installed",
          "[program]") {
  const auto beside = run_program_in({}, {"fleet"});
  CHECK(beside.code == 0);
  CHECK(beside.out.find("loosened") != std::string::npos);

  const TemporaryFolder folder;
  const auto program = laid(BOLTWITNESS_PROGRAM, folder.path() / "bin");
  auto answer = shell(program.string() + " fleet");
  CHECK(answer.code == 2);
  CHECK(answer.text.find("install boltwitness as a whole") != std::string::npos);
  CHECK(answer.text.find("libexec/boltwitness/boltwitness-network") != std::string::npos);
  CHECK(shell(program.string() + " --version").code == 0);
  // What is wrong is told before.
  answer = shell(program.string() + " serve --port many");
  CHECK(answer.code == 2);
  CHECK(answer.text.find("install boltwitness") == std::string::npos);

  laid(kNetworkProgram, folder.path() / "libexec" / "boltwitness");
  answer = shell(program.string() + " fleet");
  CHECK(answer.code == 0);
  CHECK(answer.text == beside.out);
}

}  // namespace network_program_test
