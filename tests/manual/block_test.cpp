#include "manual/block.h"

#include "support/catch.h"

namespace block_test {

namespace {

using Kind = manual::Block::Kind;
using Style = manual::Span::Style;

std::string told(const std::vector<manual::Span>& spans) {
  std::string text;
  for (const auto& span : spans) {
    const char* const kMarks[] = {"", "!", "/", "_"};
    text += kMarks[static_cast<int>(span.style)] + span.text + ";";
  }
  return text;
}

}  // namespace

TEST_CASE("a page is read block by block", "[manual]") {
  const auto blocks = manual::blocks_of({"trade", "Begin",
                                         "# Title\n\nA paragraph.\n\n## Part\n\n- one\n- two\n\n"
                                         "> Mind it.\n\n<!-- a table -->\n\n"
                                         "| a | b |\n|---|:-:|\n| 1 | `x|y` |\n| 2 | |\n\n"
                                         "```\nfirst\n\n- second\n```\nlast\n"});
  REQUIRE(blocks.size() == 9);
  CHECK(blocks[0].kind == Kind::Heading);
  CHECK(blocks[0].level == 1);
  CHECK(blocks[0].text == "Title");
  CHECK(blocks[2].level == 2);
  CHECK(blocks[3].kind == Kind::Item);
  CHECK(blocks[4].text == "two");
  CHECK(blocks[5].kind == Kind::Caution);
  CHECK(blocks[5].text == "Mind it.");
  CHECK(blocks[6].rows ==
        std::vector<std::vector<std::string>>{{"a", "b"}, {"1", "`x|y`"}, {"2", ""}});
  CHECK(blocks[7].kind == Kind::Typed);
  CHECK(blocks[7].text == "first\n\n- second\n");
  CHECK(blocks[8].text == "last");
}

TEST_CASE("marks set words apart and are no part of them", "[manual]") {
  CHECK(told(manual::spans_of("so **very much** *so*, as `--pass *` says")) ==
        "so ;!very much; ;/so;, as ;_--pass *; says;");
  // What is typed within strong words ends as strong as it began.
  CHECK(told(manual::spans_of("**`--keep` it** now")) == "_--keep;! it; now;");
  CHECK(manual::spans_of("").empty());
}

}  // namespace block_test
