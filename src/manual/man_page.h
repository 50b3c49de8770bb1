#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "manual/block.h"

namespace manual {

// A page for man(1) under way, in the man macros (groff_man(7)), its tables for tbl(1). Text goes
// in as it is read: what roff would take for a request, an escape or a hyphen of its own is written
// so that it is none.
class ManPage {
 public:
  // Breaks lines that are typed so that they fit the page, each with the two blanks of its indent.
  using Layout = std::function<std::string(std::string_view lines)>;

  // `name` such as "boltwitness-found", `section` 1, 5 or 7, `about` what it is in a few words;
  // `source` names program and version.
  ManPage(std::string_view name, int section, std::string_view about, std::string_view source,
          Layout typed_layout);

  ManPage& heading(std::string_view text);
  // A title within what stands under the last heading.
  ManPage& subheading(std::string_view text);
  ManPage& paragraph(std::string_view text);
  // How it is typed, and what that means.
  ManPage& term(std::string_view typed, std::string_view meaning);
  // Lines that are typed, laid out.
  ManPage& typed(std::string_view lines);
  // A page of the manual, its title as a heading where there are several on this page.
  ManPage& page(const Page& page, bool with_title);

  [[nodiscard]] std::string take();

 private:
  void block(const Block& block, bool with_title);
  void table(const std::vector<std::vector<std::string>>& rows);

  Layout typed_layout_;
  std::string written_;
};

}  // namespace manual
