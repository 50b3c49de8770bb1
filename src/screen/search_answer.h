#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "record/history_line.h"
#include "words/text.h"

namespace screen {

// A line that was found, and where the words stand in it.
struct FoundLine {
  record::HistoryLine line;
  std::string passage;
  bool in_says = true;  // else the words stand beside it: who, why it was struck, as typed
};

// Line number, joint, and the words in brackets where they stand; struck lines shown struck. `see`,
// the commands that show all about a place which the words name, come last. The list is cut;
// `whole` is the command that cuts none, empty where it was given.
[[nodiscard]] std::string search_text(const std::vector<FoundLine>& found,
                                      const std::vector<std::string>& see, std::string_view whole,
                                      const words::Page& page);

// {"lines":[as history --json, with "joint" (empty where it is about none) and "passage"],
// "see":[..]}
[[nodiscard]] std::string search_json(const std::vector<FoundLine>& found,
                                      const std::vector<std::string>& see);
// The lines alone, an object in one line of text each.
[[nodiscard]] std::string search_json_lines(const std::vector<FoundLine>& found);

}  // namespace screen
