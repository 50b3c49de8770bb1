#include "screen/manual_answer.h"

#include "support/catch.h"

namespace manual_answer_test {

namespace {

const manual::Page kPage{
    "trade", "Begin",
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

namespace {

const manual::Page kTypedPage{
    "typed", "Begin",
    "# What is typed\n\n"
    "```\n"
    "boltwitness found J06/1 60s 70s 75s 80o --wrench \"TW 2\"   # one test\n"
    "```\n\n"
    "| rule | looks at |\n|---|---|\n"
    "| no source | specifications without document, revision or page |\n\n"
    "> Never *loosen* with a torque wrench.\n"};

}  // namespace

TEST_CASE("what is typed can be typed as a narrow page shows it", "[screen]") {
  const auto text = screen::manual_text(kTypedPage, {40, false});
  CHECK_THAT(text, ContainsSubstring("  # one test\n"
                                     "  boltwitness found J06/1 60s 70s 75s \\\n"
                                     "      80o --wrench \"TW 2\"\n"));
  // An option stays beside its value; what goes on in the next line is one command.
  CHECK_THAT(screen::manual_text(
                 {"typed", "Begin", "```\nboltwitness found J06/1 60s \\\n    --wrench TW2\n```\n"},
                 {34, false}),
             ContainsSubstring("  boltwitness found J06/1 60s \\\n      --wrench TW2\n"));
  CHECK_THAT(
      screen::manual_text(kTypedPage, {80, false}),
      ContainsSubstring("  boltwitness found J06/1 60s 70s 75s 80o --wrench \"TW 2\"   # one "
                        "test\n"));
}

TEST_CASE("a table of the manual keeps its columns and the page's width", "[screen]") {
  CHECK_THAT(screen::manual_text(kTypedPage, {40, false}),
             ContainsSubstring("  rule       looks at\n\n"
                               "  no source  specifications without\n"
                               "             document, revision or page\n"));
  CHECK_THAT(screen::manual_text(kTypedPage, {24, false}),
             ContainsSubstring("  no source\n"
                               "    specifications\n"
                               "    without document,\n"
                               "    revision or page\n"));
}

TEST_CASE("a caution stands out without a colour", "[screen]") {
  CHECK_THAT(screen::manual_text(kTypedPage, {40, false}),
             ContainsSubstring("  ! Never loosen with a torque wrench.\n"));
}

}  // namespace manual_answer_test
