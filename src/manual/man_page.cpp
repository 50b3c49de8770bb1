#include "manual/man_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <utility>

namespace manual {
namespace {

// Text that roff prints as it stands. A hyphen is written as the minus that can be copied from the
// screen and typed; a line never begins with what marks a request.
std::string literal(std::string_view text) {
  std::string roff;
  for (const char next : text) {
    if (next == '\\') {
      roff += "\\e";
    } else if (next == '-') {
      roff += "\\-";
    } else if (next == '\'') {
      roff += "\\(aq";
    } else if (next == '~') {
      roff += "\\(ti";
    } else if (next == '^') {
      roff += "\\(ha";
    } else if (next == '`') {
      roff += "\\(ga";
    } else {
      roff += next;
    }
  }
  return roff.starts_with('.') ? "\\&" + roff : roff;
}

// The same with its marks as fonts.
std::string set_words(std::string_view text) {
  std::string roff;
  for (const auto& span : spans_of(text)) {
    const auto words = literal(span.text);
    switch (span.style) {
      case Span::Style::Plain:
        roff += words;
        break;
      case Span::Style::Strong:
      case Span::Style::Typed:
        roff += "\\fB" + words + "\\fR";
        break;
      case Span::Style::Slanted:
        roff += "\\fI" + words + "\\fR";
        break;
    }
  }
  return roff.starts_with('.') ? "\\&" + roff : roff;
}

std::string in_capitals(std::string_view text) {
  std::string capitals(text);
  std::ranges::transform(capitals, capitals.begin(), [](unsigned char letter) {
    return static_cast<char>(std::toupper(letter));
  });
  return capitals;
}

std::string as_argument(std::string_view text) {
  std::string quoted = "\"";
  for (const char next : set_words(text)) {
    quoted += next == '"' ? "\\(dq" : std::string(1, next);
  }
  return quoted + '"';
}

}  // namespace

ManPage::ManPage(std::string_view name, int section, std::string_view about,
                 std::string_view source, Layout typed_layout)
    : typed_layout_(std::move(typed_layout)),
      written_(fmt::format("'\\\" t\n.TH {} {} \"\" \"{}\"\n.SH NAME\n{} \\- {}\n",
                           literal(in_capitals(name)), section, source, literal(name),
                           set_words(about))) {}

ManPage& ManPage::heading(std::string_view text) {
  written_ += ".SH " + as_argument(text) + '\n';
  return *this;
}

ManPage& ManPage::subheading(std::string_view text) {
  written_ += ".SS " + as_argument(text) + '\n';
  return *this;
}

ManPage& ManPage::paragraph(std::string_view text) {
  written_ += ".PP\n" + set_words(text) + '\n';
  return *this;
}

ManPage& ManPage::term(std::string_view typed, std::string_view meaning) {
  written_ += ".TP\n\\fB" + literal(typed) + "\\fR\n" + set_words(meaning) + '\n';
  return *this;
}

ManPage& ManPage::typed(std::string_view unbroken) {
  const auto laid_out = typed_layout_(unbroken);
  std::string_view lines = laid_out;
  written_ += ".PP\n.RS 2\n.nf\n";
  while (!lines.empty()) {
    const auto line = lines.substr(0, lines.find('\n'));
    lines.remove_prefix(std::min(line.size() + 1, lines.size()));
    written_ += (line.empty() ? "\\&" : literal(line)) + '\n';
  }
  written_ += ".fi\n.RE\n";
  return *this;
}

ManPage& ManPage::page(const Page& page, bool with_title) {
  for (const auto& each : blocks_of(page)) block(each, with_title);
  return *this;
}

void ManPage::block(const Block& block, bool with_title) {
  using Kind = Block::Kind;
  switch (block.kind) {
    case Kind::Heading:
      // Under the title of a page its own headings are one step smaller.
      if (block.level == 1 && with_title) heading(block.text);
      if (block.level > 1) with_title ? subheading(block.text) : heading(block.text);
      break;
    case Kind::Paragraph:
      paragraph(block.text);
      break;
    case Kind::Item:
      written_ += ".IP \\(bu 2\n" + set_words(block.text) + '\n';
      break;
    case Kind::Caution:
      written_ += ".IP \"\\fB!\\fR\" 2\n" + set_words(block.text) + '\n';
      break;
    case Kind::Table:
      table(block.rows);
      break;
    case Kind::Typed:
      typed(block.text);
      break;
  }
}

void ManPage::table(const std::vector<std::vector<std::string>>& rows) {
  const auto columns = rows.front().size();
  std::string layout;
  for (std::size_t i = 0; i < columns; ++i) layout += i + 1 < columns ? "l " : "lx";
  written_ += ".PP\n.TS\nallbox;\n" + layout + ".\n";
  for (const auto& row : rows) {
    for (std::size_t i = 0; i < columns; ++i) {
      const auto cell = i < row.size() ? set_words(row[i]) : std::string();
      written_ +=
          (i > 0 ? "\t" : "") + std::string("T{\n") + (cell.empty() ? "\\&" : cell) + "\nT}";
    }
    written_ += '\n';
  }
  written_ += ".TE\n";
}

std::string ManPage::take() { return std::move(written_); }

}  // namespace manual
