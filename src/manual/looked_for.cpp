#include "manual/looked_for.h"

#include <algorithm>

namespace manual {

std::string as_looked_for(std::string_view typed) {
  std::string words(typed);
  std::ranges::transform(words, words.begin(), [](char c) {
    if (c == ' ') return '-';
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  });
  return words;
}

std::vector<std::string> looked_for_as(const Page& page) {
  constexpr std::string_view kBegin = "\n<!-- looked for as: ";
  constexpr std::string_view kEnd = " -->\n";
  constexpr std::string_view kBetween = ", ";
  const auto begin = page.text.find(kBegin);
  if (begin == std::string_view::npos) return {};
  auto rest = page.text.substr(begin + kBegin.size());
  rest = rest.substr(0, rest.find(kEnd));
  std::vector<std::string> words;
  while (!rest.empty()) {
    const auto each = rest.substr(0, rest.find(kBetween));
    words.push_back(as_looked_for(each));
    rest.remove_prefix(std::min(rest.size(), each.size() + kBetween.size()));
  }
  return words;
}

const Page* page_about(std::string_view typed) {
  const auto wanted = as_looked_for(typed);
  const auto named = std::ranges::find(pages(), wanted, &Page::name);
  if (named != pages().end()) return &*named;
  const auto found = std::ranges::find_if(pages(), [&](const Page& page) {
    const auto words = looked_for_as(page);
    return as_looked_for(title_of(page)) == wanted ||
           std::ranges::find(words, wanted) != words.end();
  });
  return found == pages().end() ? nullptr : &*found;
}

}  // namespace manual
