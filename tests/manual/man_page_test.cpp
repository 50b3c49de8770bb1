#include "manual/man_page.h"

#include "support/catch.h"

namespace man_page_test {

namespace {

std::string as_it_is(std::string_view lines) { return std::string(lines); }

}  // namespace

TEST_CASE("a page for man keeps every character that roff would take for its own", "[manual]") {
  manual::ManPage page("boltwitness-found", 1, "record a test", "boltwitness 1.0.0", as_it_is);
  page.heading("OPTIONS").term("--wrench NAME", "its scale, not 'yours'; a\\b ~ ^");
  page.typed(".hidden\nboltwitness found \"75s 3°\"\n\n'quoted'\n");
  const auto roff = page.take();
  CHECK(
      roff.starts_with("'\\\" t\n.TH BOLTWITNESS\\-FOUND 1 \"\" \"boltwitness 1.0.0\"\n"
                       ".SH NAME\nboltwitness\\-found \\- record a test\n"));
  CHECK_THAT(roff, ContainsSubstring(".TP\n\\fB\\-\\-wrench NAME\\fR\n"
                                     "its scale, not \\(aqyours\\(aq; a\\eb \\(ti \\(ha\n"));
  CHECK_THAT(roff, ContainsSubstring("\n\\&.hidden\nboltwitness found \"75s 3°\"\n\\&\n"
                                     "\\(aqquoted\\(aq\n.fi\n"));
}

TEST_CASE("a page of the manual becomes sections, lists and tables of man", "[manual]") {
  manual::ManPage page("boltwitness-method", 7, "the method", "boltwitness 1.0.0", as_it_is);
  page.page({"trade", "Begin",
             "# Title\n\n## Part\n\n- **strong** and `--typed`\n\n| a | b |\n|---|---|\n| 1 | |\n"},
            true);
  CHECK_THAT(page.take(), ContainsSubstring(".SH \"Title\"\n.SS \"Part\"\n.IP \\(bu 2\n"
                                            "\\fBstrong\\fR and \\fB\\-\\-typed\\fR\n"
                                            ".PP\n.TS\nallbox;\nl lx.\nT{\na\nT}\tT{\nb\nT}\n"
                                            "T{\n1\nT}\tT{\n\\&\nT}\n.TE\n"));
}

}  // namespace man_page_test
