#pragma once

#include <initializer_list>
#include <string_view>

#include "paper/markup.h"

namespace paper {

// Opens a table with this name and these headings, on a narrow screen inside a strip that scrolls;
// end_table closes it.
void begin_table(Markup& page, std::string_view name,
                 std::initializer_list<std::string_view> headings);
void end_table(Markup& page);

// A row of text; the first cell heads it.
void write_row(Markup& page, std::initializer_list<std::string_view> cells);

}  // namespace paper
