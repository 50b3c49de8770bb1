#pragma once

#include <string_view>
#include <vector>

namespace manual {

// A page of the manual: a file NAME.md beside this one, in the little Markdown that is used there:
// headings, paragraphs and items of a list, each on one line; **strong**, *slanted* and `as typed`.
struct Page {
  std::string_view name;
  std::string_view text;
};

// All of them, in the order of their names.
[[nodiscard]] const std::vector<Page>& pages();

// The heading at the top of the page.
[[nodiscard]] std::string_view title_of(const Page& page);

}  // namespace manual
