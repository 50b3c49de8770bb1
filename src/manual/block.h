#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "manual/page.h"

namespace manual {

// What a page is made of, in its order. The Markdown that pages use is a small part of CommonMark
// with the tables of GitHub's: "# " and "## " headings, paragraphs, "- " items, "> " cautions,
// tables and fenced blocks of what is typed. Paragraphs, items and cautions stand on one line each;
// a line
// "<!-- ... -->" is for the program that writes a table and is no part of the page.
struct Block {
  enum class Kind { Heading, Paragraph, Item, Caution, Table, Typed };
  Kind kind = Kind::Paragraph;
  int level = 0;                               // of a heading: 1 the page, 2 a part of it
  std::string text;                            // with its marks; of what is typed the lines
  std::vector<std::vector<std::string>> rows;  // of a table, the titles first
};

[[nodiscard]] std::vector<Block> blocks_of(const Page& page);

// A run of words that is set in one way.
struct Span {
  enum class Style { Plain, Strong, Slanted, Typed };
  Style style = Style::Plain;
  std::string text;
};

// The text of a block without its marks: **strong**, *slanted*, `typed`; nothing is a mark within
// what is typed.
[[nodiscard]] std::vector<Span> spans_of(std::string_view text);

// The same in one run.
[[nodiscard]] std::string plain_text(std::string_view text);

}  // namespace manual
