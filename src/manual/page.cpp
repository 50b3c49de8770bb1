#include "manual/page.h"

namespace manual {

std::string_view title_of(const Page& page) {
  constexpr std::string_view kMark = "# ";
  auto first = page.text.substr(0, page.text.find('\n'));
  if (first.starts_with(kMark)) first.remove_prefix(kMark.size());
  return first;
}

}  // namespace manual
