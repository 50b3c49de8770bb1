#include "terminal/progress_bar.h"

#include <sstream>

#include "support/catch.h"
#include "words/text.h"

namespace progress_bar_test {

namespace {

// What a bar over 200 steps shows where each takes so long.
std::string shown(std::chrono::milliseconds each, bool on_terminal) {
  std::ostringstream out;
  std::ostringstream err;
  auto now = record::read_moment("2026-06-01T08:00:00Z");
  terminal::Context context{out, err, [&] { return now; }, {}, {}, "KB", {}};
  context.errors_on_terminal = on_terminal;
  const terminal::GlobalOptions options;
  const terminal::Session session(context, options);
  {
    terminal::ProgressBar bar(session, "tightenings", 200);
    for (int i = 0; i < 200; ++i) {
      now += each;
      bar.step();
    }
  }
  CHECK(out.str().empty());
  return err.str();
}

}  // namespace

TEST_CASE("a progress bar shows on a terminal after a second", "[cli]") {
  using std::chrono::milliseconds;
  CHECK(shown(milliseconds(4), true).empty());
  CHECK(shown(milliseconds(40), false).empty());
  const auto text = shown(milliseconds(40), true);
  CHECK(text.find("tightenings") != std::string::npos);
  CHECK(text.find("] 100 %") != std::string::npos);
  CHECK(text.find("]  11 %") == std::string::npos);
  CHECK(text.ends_with("\r\x1b[K"));
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line, '\r');) {
    CHECK(words::display_width(line) <= 60 + 3);  // the three bytes that erase the line
  }
}

}  // namespace progress_bar_test
