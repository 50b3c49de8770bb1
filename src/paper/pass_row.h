#pragma once

#include <set>
#include <string>
#include <vector>

#include "paper/markup.h"

namespace paper {

// A pass, a check or a stripe as it stands on the sequence: a line that names it, in a column that
// never moves what to set, large, and beside that a cell to tick for every position in its turn.
struct PassRow {
  std::string joint;  // it and the title stand again on every page that the row goes on to
  std::string title;
  std::string large = {};      // "56"; or a word
  std::string unit = {};       // "N·m"
  std::string below = {};      // "TW2"
  std::vector<int> positions;  // in the order in which they are done
  std::set<int> ticked = {};
  std::vector<std::string> says = {};  // who did what, what was left out
  bool is_finish = false;              // no pass: lower cells, and room for a name and a day

  [[nodiscard]] bool is_done() const { return ticked.size() == positions.size(); }
};

// Where every position is ticked, one ticked box stands for the cells, and nothing is large.
void write_pass_row(Markup& page, const PassRow& row);

}  // namespace paper
