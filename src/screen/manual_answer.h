#pragma once

#include <string>
#include <string_view>

#include "manual/page.h"
#include "words/text.h"

namespace screen {

// The topics that there is a page of the manual about, and what each is about.
[[nodiscard]] std::string topics_text(const words::Page& layout);

// {"topics":[{"name","part","title"}]}
[[nodiscard]] std::string topics_json();

// A page of the manual laid out for a terminal: its marks are gone, what is strong there is strong
// here where the terminal can show it.
[[nodiscard]] std::string manual_text(const manual::Page& page, const words::Page& layout);

// Says which page it is that a word was looked for on; stands above it.
[[nodiscard]] std::string found_under(std::string_view word, const manual::Page& page,
                                      const words::Page& layout);

// {"name","title","markdown"}
[[nodiscard]] std::string manual_json(const manual::Page& page);

}  // namespace screen
