#pragma once

#include <string_view>
#include <vector>

#include "paper/markup.h"

namespace paper {

// Opens a table with this name and these headings, on a narrow screen inside a strip that scrolls;
// end_table closes it. `look` is a class of the style sheet, which sets the width of its columns.
void begin_table(Markup& page, std::string_view name, const std::vector<std::string_view>& headings,
                 std::string_view look = "plain");
void end_table(Markup& page);

// A row of text; the first cell heads it.
void write_row(Markup& page, const std::vector<std::string_view>& cells);

}  // namespace paper
