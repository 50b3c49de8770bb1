#include "paper/markup.h"

#include <sstream>

#include "failure/failure.h"
#include "paper/document.h"
#include "paper/manual_book.h"
#include "support/html_check.h"
#include "support/property.h"

namespace markup_test {

TEST_CASE("markup in text stays text", "[paper]") {
  CHECK(paper::escaped("<b>&amp;\"it's\"") == "&lt;b&gt;&amp;amp;&quot;it&#39;s&quot;");
  CHECK(paper::escaped("N·m ± 5 %\n\t") == "N·m ± 5 %\n\t");
}

TEST_CASE("what no page may hold becomes the replacement character", "[paper]") {
  CHECK(paper::escaped(std::string_view("a\0b\x1b[1m", 7)) == "a\uFFFDb\uFFFD[1m");
  CHECK(paper::escaped("\xff"
                       "a\xc3") == "\uFFFDa\uFFFD");
  CHECK(paper::escaped("\xc2\x85\xef\xbf\xbe") == "\uFFFD\uFFFD");
}

TEST_CASE("a string of the style sheet cannot be left", "[paper]") {
  CHECK(paper::style_string("GB-1") == "\"GB\\2D 1\"");
  CHECK(paper::style_string("\"};</style>\\") == "\"\\22 \\7D \\3B \\3C \\2F style\\3E \\5C \"");
}

TEST_CASE("what runs from right to left stands apart from the figures beside it", "[paper]") {
  // U+2068 and U+2069: UAX #9 of Unicode, explicit directional isolates.
  CHECK(paper::isolated("bag מכסה המסב 48 of 48, M12") ==
        "bag \u2068מכסה המסב\u2069 48 of 48, M12");
  CHECK(paper::isolated("מכסה 2 ליד: مسمار") == "\u2068מכסה 2 ליד: مسمار\u2069");
  CHECK(paper::isolated("אb-ג!") == "\u2068א\u2069b-\u2068ג\u2069!");
  CHECK(paper::isolated("GB-1 Wälzlager, 80 N·m") == "GB-1 Wälzlager, 80 N·m");
  CHECK(paper::isolated("\xffא\xff") == "\xff\u2068א\u2069\xff");
  paper::Markup page;
  page.element("p", "16 א 8");
  CHECK(page.take() == "<p>16 \u2068א\u2069 8</p>\n");
}

TEST_CASE("words that are set apart within a text stand where they were written", "[paper]") {
  paper::Markup page;
  page.open("p")
      .text("as ")
      .words("code", "--log")
      .text(", else ")
      .words("strong", "a<b")
      .text(".");
  page.close();
  CHECK(page.take() == "<p>as <code>--log</code>, else <strong>a&lt;b</strong>.</p>\n");
}

TEST_CASE("the book puts nothing between a word and the comma behind it", "[paper][manual]") {
  const auto book = paper::manual_book("1.0.0", paper::PaperSize::A4);
  std::istringstream lines(book.substr(book.find("</style>")));
  bool typed = false;  // what is typed may begin as it likes
  for (std::string line; std::getline(lines, line);) {
    if (line.find("<pre>") != std::string::npos) typed = true;
    INFO(line);
    CHECK(
        (typed || line.empty() || std::string(",.;:)?!").find(line.front()) == std::string::npos));
    if (line.find("</pre>") != std::string::npos) typed = false;
  }
}

TEST_CASE("a document is sound whatever its words are", "[paper]") {
  holds_always("no title, machine or text breaks a page",
               [](const std::string& a, const std::string& b) {
                 paper::Document document(a, {b, {}, 7});
                 document.body().element("p", {{"class", b}}, a);
                 const auto page = document.take();
                 RC_ASSERT(fault_of_page(page) == "");
                 RC_ASSERT(paper::is_our_page(page));
               });
}

TEST_CASE("a page that is not sound is noticed", "[paper]") {
  paper::Document document("t", {"m", {}, 1});
  document.body().element("p", "words");
  const auto page = document.take();
  REQUIRE(fault_of_page(page) == "");
  const std::string part = "<p>words</p>";
  for (const std::string put :
       {"<p>words", "words</p>", "<p>a < b</p>", "<p>a & b</p>", "<p>it's</p>", "<p>&nbsp;</p>",
        "<script>1</script>", "<p onclick=\"x\">a</p>", "<img src=\"x\"/>", "<p><p>a</p></p>",
        "<p class=x>a</p>", "<ul><p>a</p></ul>", "<div><span>a</div></span>", "<p>\x01</p>",
        "<div id=\"a\"></div><div id=\"a\"></div>"}) {
    INFO(put);
    auto broken = page;
    broken.replace(broken.find(part), part.size(), put);
    CHECK(fault_of_page(broken) != "");
  }
}

TEST_CASE("a paper size is read in any case and no other is taken", "[paper]") {
  CHECK(paper::read_paper_size("A4") == paper::PaperSize::A4);
  CHECK(paper::read_paper_size("letter") == paper::PaperSize::Letter);
  CHECK_THROWS_AS(paper::read_paper_size("A5"), failure::InputError);
  CHECK_THAT(paper::style_sheet(paper::PaperSize::Letter, "x"), ContainsSubstring("size: letter;"));
}

}  // namespace markup_test
