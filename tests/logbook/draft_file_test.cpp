#include "logbook/draft_file.h"

#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <fstream>
#include <set>
#include <vector>

#include "logbook/logbook_error.h"
#include "support/catch.h"
#include "support/temporary_folder.h"
#include "support/torture.h"

namespace draft_file_test {

using logbook::DraftFile;

namespace {

std::set<std::string> names_in(const TemporaryFolder& folder) {
  std::set<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(folder.path())) {
    names.insert(entry.path().filename().string());
  }
  return names;
}

// Another process that makes a draft and stays where it is, until it is killed.
class OtherProgram {
 public:
  explicit OtherProgram(const std::filesystem::path& folder) {
    int ready[2];
    REQUIRE(::pipe(ready) == 0);
    process_ = ::fork();
    REQUIRE(process_ >= 0);
    if (process_ == 0) {
      const DraftFile draft(folder);
      std::ofstream(draft.path().string() + "-journal") << "x";
      (void)!::write(ready[1], "x", 1);
      for (;;) ::pause();
    }
    char byte = 0;
    REQUIRE(::read(ready[0], &byte, 1) == 1);
    ::close(ready[0]);
    ::close(ready[1]);
  }
  ~OtherProgram() {
    if (process_ > 0) kill();
  }
  OtherProgram(const OtherProgram&) = delete;
  OtherProgram& operator=(const OtherProgram&) = delete;

  void kill() {
    ::kill(process_, SIGKILL);
    ::waitpid(process_, nullptr, 0);
    process_ = -1;
  }

 private:
  pid_t process_ = -1;
};

}  // namespace

TEST_CASE("a draft is there while it is needed and gone afterwards", "[logbook]") {
  const TemporaryFolder folder;
  {
    const DraftFile draft(folder.path());
    std::ofstream(draft.path().string() + "-wal") << "x";
    CHECK(names_in(folder).size() == 2);
  }
  CHECK(names_in(folder).empty());
}

TEST_CASE("what a killed program left is removed by the next, what a live one holds is not",
          "[logbook]") {
  const TemporaryFolder folder;
  OtherProgram other(folder.path());
  const auto held = names_in(folder);
  REQUIRE(held.size() == 2);
  { const DraftFile draft(folder.path()); }
  CHECK(names_in(folder) == held);
  other.kill();
  CHECK(names_in(folder) == held);
  { const DraftFile draft(folder.path()); }
  CHECK(names_in(folder).empty());
}

TEST_CASE("of programs that make drafts at once none loses its own", "[logbook][torture]") {
  const TemporaryFolder folder;
  constexpr int kPrograms = 8;
  const auto each = trials(250, 10000);
  std::vector<pid_t> programs;
  for (int i = 0; i < kPrograms; ++i) {
    const pid_t program = ::fork();
    REQUIRE(program >= 0);
    if (program == 0) {
      int lost = 0;
      for (std::size_t made = 0; made < each; ++made) {
        const DraftFile draft(folder.path());
        if (!std::filesystem::exists(draft.path())) ++lost;
      }
      ::_exit(std::min(lost, 100));
    }
    programs.push_back(program);
  }
  std::size_t lost = 0;
  for (const pid_t program : programs) {
    int status = 0;
    ::waitpid(program, &status, 0);
    lost += WIFEXITED(status) ? static_cast<std::size_t>(WEXITSTATUS(status)) : 1;
  }
  tell_torture("8 programs making drafts in one folder", kPrograms * each,
               std::to_string(lost) + " taken away by another", lost);
  CHECK(lost == 0);
  CHECK(names_in(folder).empty());
}

TEST_CASE("nothing but drafts is swept away", "[logbook]") {
  const TemporaryFolder folder;
  const std::set<std::string> others = {".starting-notes", ".starting-", "gb1.bolts",
                                        ".starting-00000000-0000-4000-8000-000000000001.bolts"};
  for (const auto& name : others) std::ofstream(folder.file(name)) << "x";
  { const DraftFile draft(folder.path()); }
  CHECK(names_in(folder) == others);
}

TEST_CASE("a folder in which nothing can be made is named", "[logbook]") {
  CHECK_THROWS_AS(DraftFile("/proc"), logbook::LogbookError);
}

}  // namespace draft_file_test
