#include "paper/manual_book.h"

#include <fmt/format.h>

#include <vector>

#include "manual/block.h"
#include "manual/examples.h"
#include "paper/document.h"
#include "paper/grid_table.h"

namespace paper {
namespace {

using Kind = manual::Block::Kind;

void write_spans(Markup& page, std::string_view text) {
  for (const auto& span : manual::spans_of(text)) {
    switch (span.style) {
      case manual::Span::Style::Plain:
        page.text(span.text);
        break;
      case manual::Span::Style::Strong:
        page.words("strong", span.text);
        break;
      case manual::Span::Style::Slanted:
        page.words("em", span.text);
        break;
      case manual::Span::Style::Typed:
        page.words("code", span.text);
        break;
    }
  }
}

void write_table(Markup& page, const std::vector<std::vector<std::string>>& rows,
                 std::string_view name) {
  std::vector<std::string_view> headings(rows.front().begin(), rows.front().end());
  GridTable table(page, name, headings);
  for (std::size_t i = 1; i < rows.size(); ++i) {
    table.begin_row(manual::plain_text(rows[i].front()));
    for (std::size_t cell = 1; cell < headings.size(); ++cell) {
      table.begin_cell();
      if (cell < rows[i].size()) write_spans(page, rows[i][cell]);
      table.end_cell();
    }
    table.end_row();
  }
  table.end();
}

void write_block(Markup& page, const manual::Block& block, std::string_view title) {
  switch (block.kind) {
    case Kind::Heading:
      if (block.level == 1) page.element("h3", manual::plain_text(block.text));
      if (block.level > 1) page.element("h4", manual::plain_text(block.text));
      break;
    case Kind::Paragraph:
      page.open("p");
      write_spans(page, block.text);
      page.close();
      break;
    case Kind::Item:
      page.open("li");
      write_spans(page, block.text);
      page.close();
      break;
    case Kind::Caution:
      page.open("p", {{"class", "caution"}});
      write_spans(page, block.text);
      page.close();
      break;
    case Kind::Table:
      write_table(page, block.rows, title);
      break;
    case Kind::Typed:
      page.element("pre", block.text);
      break;
  }
}

void write_page(Markup& page, const manual::Page& shown) {
  page.open("section", {{"id", std::string(shown.name)}});
  bool list = false;
  for (const auto& block : manual::blocks_of(shown)) {
    if (list != (block.kind == Kind::Item)) {
      list = !list;
      if (list) {
        page.open("ul");
      } else {
        page.close();
      }
    }
    write_block(page, block, manual::title_of(shown));
  }
  if (list) page.close();
  page.close();
}

// Each part with what `each` writes for its pages.
template <typename Begin, typename Each, typename End>
void by_part(const Begin& begin, const Each& each, const End& end) {
  std::string_view part;
  for (const auto& shown : manual::pages()) {
    if (shown.part != part) {
      if (!part.empty()) end();
      begin(shown.part);
    }
    part = shown.part;
    each(shown);
  }
  if (!part.empty()) end();
}

constexpr std::string_view kExamplesTitle = "Examples of every command";

void write_contents(Markup& page) {
  page.open("nav", {{"aria-label", "Contents"}});
  by_part([&](std::string_view part) { page.element("p", part).open("ul"); },
          [&](const manual::Page& shown) {
            page.open("li");
            page.element("a", {{"href", fmt::format("#{}", shown.name)}}, manual::title_of(shown));
            page.close();
          },
          [&] { page.close(); });
  page.open("p").element("a", {{"href", "#examples"}}, kExamplesTitle).close();
  page.close();
}

void write_examples(Markup& page) {
  page.open("section", {{"id", "examples"}});
  page.element("h2", kExamplesTitle);
  page.element(
      "p",
      "One small job, from top to bottom, in an empty folder. How each command is typed and "
      "what its options are tells boltwitness COMMAND --help.");
  for (const auto& shown : manual::examples()) {
    page.element("h3", shown.command).element("pre", shown.typed);
  }
  page.close();
}

}  // namespace

std::string manual_book(std::string_view version, PaperSize size) {
  Document document("The manual", fmt::format("boltwitness {}", version), size);
  auto& page = document.body();
  write_contents(page);
  by_part([&](std::string_view part) { page.element("h2", part); },
          [&](const manual::Page& shown) { write_page(page, shown); }, [] {});
  write_examples(page);
  return document.take();
}

}  // namespace paper
