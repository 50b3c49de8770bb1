// Input that has no end, or no end of what belongs together: refused soon and in little memory.

#include <sys/wait.h>

#include <array>
#include <cstdio>

#include "support/catch.h"
#include "support/trial.h"

namespace endless_input_test {

namespace {

struct Told {
  int code = -1;
  std::string text;
};

// With no more address space than the program and some hundred MB.
Told piped_into_import(const std::string& source, const std::string& options) {
  const auto line = "ulimit -v 700000; " + source +
                    " 2>/dev/null | timeout 60 '" BOLTWITNESS_PROGRAM "' import - " + options +
                    " 2>&1";
  Told told;
  FILE* pipe = ::popen(line.c_str(), "r");
  if (pipe == nullptr) return told;
  std::array<char, 4096> piece{};
  while (const auto count = std::fread(piece.data(), 1, piece.size(), pipe)) {
    told.text.append(piece.data(), count);
  }
  const int status = ::pclose(pipe);
  if (WIFEXITED(status)) told.code = WEXITSTATUS(status);
  return told;
}

}  // namespace

TEST_CASE("input without an end is refused soon and in little memory", "[program]") {
  Trial trial;
  const auto log = trial.folder().file("gb1.bolts");
  trial.done("start " + log + " --machine GB-1");
  const auto on = "--by KB --log '" + log + "'";
  struct Endless {
    const char* source;
    const char* options;
    const char* told;
  };
  const auto& [source, options, words] = GENERATE(values<Endless>({
      {"yes 'J1,x,M8,2,8.8'", "--as joints", "there is no column"},
      {"{ echo joint,holds,size,grade,count; yes 'J1,x,M8,8.8,2'; }", "", "was not looked at"},
      {"yes '[' | tr -d '\\n'", "", "nested more than"},
      {"yes '{\"a\":' | tr -d '\\n'", "", "nested more than"},
      {"{ echo '{\"a\":['; yes 1,; }", "", "without a quotation mark"},
      {"{ echo '{\"a\":\"'; yes x; }", "", "without a quotation mark"},
      {"cat /dev/zero", "", "is a NUL"},
      {"cat /dev/zero", "--as joints", "is a NUL"},
      {"yes , | tr -d '\\n'", "--as joints", "1000 cells"},
      {"yes x | tr -d '\\n'", "--as joints", "4 MiB"},
      {"{ echo joint,holds,size,grade,count; echo 'J1,\"'; yes; }", "", "4 MiB"},
  }));
  const auto told = piped_into_import(source, options + (" " + on));
  INFO(source << ": " << told.text);
  CHECK(told.code == 2);
  CHECK_THAT(told.text, ContainsSubstring(words));
}

}  // namespace endless_input_test
