// A page of the manual that is longer than the terminal is shown by the pager, and nothing else is.

#include <cstdlib>

#include "support/catch.h"
#include "support/child_program.h"

namespace pager_test {

namespace {

// PAGER for the programs that are started meanwhile.
class Pager {
 public:
  explicit Pager(const char* command) { ::setenv("PAGER", command, 1); }
  ~Pager() { ::unsetenv("PAGER"); }
  Pager(const Pager&) = delete;
  Pager& operator=(const Pager&) = delete;
};

constexpr const char* kMarks = "sed 's/^/paged: /'";

}  // namespace

TEST_CASE("what does not fit on the terminal is shown by PAGER", "[program]") {
  const Pager pager(kMarks);
  TerminalProgram program({"help", "words"}, 60);
  CHECK(program.shows("paged: "));
  CHECK(program.ended() == 0);
  CHECK(program.screen().find("paged: \x1b[1m") != std::string::npos);
}

TEST_CASE("what fits on the terminal is not paged, and nothing is in a pipe", "[program]") {
  const Pager pager(kMarks);
  TerminalProgram program({"help", "wrenches"});
  CHECK(program.ended() == 0);
  CHECK_FALSE(program.shows("paged: "));
  const auto piped = run_program_in({}, {"help", "words"});
  CHECK(piped.code == 0);
  CHECK(piped.out.find("paged: ") == std::string::npos);
}

TEST_CASE("a pager that ends early, is not there or is not wanted hides nothing", "[program]") {
  {
    const Pager pager("head -n 1 >/dev/null");
    TerminalProgram program({"help", "decisions"});
    CHECK(program.ended() == 0);
  }
  for (const auto* command : {"no-such-pager-anywhere", ""}) {
    const Pager pager(command);
    TerminalProgram program({"help", "words"});
    CHECK(program.shows("torque wrench"));
    CHECK(program.ended() == 0);
  }
}

}  // namespace pager_test
