#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "words/text.h"

namespace screen {

// One rule for every list of a text answer, on a terminal and in a pipe alike: it is cut at a
// number of its own, and says how many more there are and what is typed to see them all. JSON is
// never cut.

// Behind a list that was cut: "and 12 more: boltwitness audit --whole"; empty where nothing is left
// out. `command` is the whole of it.
[[nodiscard]] std::string and_more(std::size_t left_out, std::string_view command,
                                   const words::Page& page, std::string_view indent = "");

// How many of a list are shown where it is cut at `most`: one more where that one would take the
// line which says so.
[[nodiscard]] std::size_t shown_of(std::size_t all, std::size_t most);

}  // namespace screen
