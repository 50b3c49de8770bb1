#pragma once

#include <string_view>
#include <vector>

namespace manual {

// A page of the manual: a file NAME.md beside this one, in the part of Markdown that block.h names.
struct Page {
  std::string_view name;
  std::string_view part;  // of the manual that it belongs to, such as "Method"
  std::string_view text;
};

// All of them, in the order in which they are read: that of contents.txt.
[[nodiscard]] const std::vector<Page>& pages();

// The heading at the top of the page.
[[nodiscard]] std::string_view title_of(const Page& page);

}  // namespace manual
