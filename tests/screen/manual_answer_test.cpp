#include "screen/manual_answer.h"

#include "support/catch.h"

namespace manual_answer_test {

namespace {

const manual::Page kPage{
    "trade",
    "# Words of the trade\n\n"
    "One word, **one thing**.\n\n"
    "## At the bench\n\n"
    "- **pass**: one round over a joint, at *its* torque, as `--pass 2` says.\n"};

}  // namespace

TEST_CASE("a page of the manual is laid out for the width of the terminal", "[screen]") {
  CHECK(screen::manual_text(kPage, {40, false}) ==
        "Words of the trade\n\n"
        "One word, one thing.\n\n"
        "At the bench\n\n"
        "  - pass: one round over a joint, at its\n"
        "    torque, as --pass 2 says.\n");
}

TEST_CASE("what is strong in the manual is strong on a terminal that can", "[screen]") {
  const auto text = screen::manual_text(kPage, {80, true});
  CHECK_THAT(text, ContainsSubstring("\x1b[1mWords of the trade\x1b[0m\n"));
  CHECK_THAT(text, ContainsSubstring("\x1b[1mone\x1b[0m \x1b[1mthing\x1b[0m."));
  CHECK_THAT(text, ContainsSubstring("  - \x1b[1mpass\x1b[0m: one round"));
}

}  // namespace manual_answer_test
