#pragma once

#include <string>
#include <vector>

#include "words/text.h"

namespace phone {

// The lines of an answer for the terminal, unbroken and without their indent: a page breaks them
// itself.
template <class Tell>
std::vector<std::string> lines_of(Tell&& tell) {
  constexpr std::size_t kUnbroken = 100'000;
  const std::string text = tell(words::Page{kUnbroken, false});
  std::vector<std::string> lines;
  std::size_t from = 0;
  while (from < text.size()) {
    auto to = text.find('\n', from);
    if (to == std::string::npos) to = text.size();
    const auto first = text.find_first_not_of(' ', from);
    if (first < to) lines.push_back(text.substr(first, to - first));
    from = to + 1;
  }
  return lines;
}

}  // namespace phone
