#include "screen/manual_answer.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "screen/json_text.h"
#include "screen/manual_table.h"
#include "screen/typed_lines.h"

namespace screen {
namespace {

std::string block_text(const manual::Block& block, const words::Page& layout) {
  using Kind = manual::Block::Kind;
  const auto in_prose = [&](std::string_view first, std::string_view next) {
    return words::wrapped(without_marks(block.text, layout), layout.width, first, next);
  };
  switch (block.kind) {
    case Kind::Heading:
      return words::strong(manual::plain_text(block.text), layout) + '\n';
    case Kind::Item:
      return in_prose("  - ", "    ");
    case Kind::Caution:
      return in_prose("  ! ", "  ! ");
    case Kind::Table:
      return manual_table(block.rows, layout);
    case Kind::Typed:
      return typed_lines(block.text, layout.width);
    case Kind::Paragraph:
      break;
  }
  return in_prose("", "");
}

}  // namespace

std::string topics_text(const words::Page& layout) {
  std::size_t longest = 0;
  for (const auto& page : manual::pages()) longest = std::max(longest, page.name.size());
  const std::string indent(longest + 4, ' ');
  auto text =
      words::wrapped("boltwitness help TOPIC tells about one of these:", layout.width, "", "") +
      '\n';
  std::string_view part;
  for (const auto& page : manual::pages()) {
    if (page.part != part) text += std::string(page.part) + '\n';
    part = page.part;
    const auto start = words::padded_right("  " + std::string(page.name), indent.size());
    text += words::wrapped(manual::title_of(page), layout.width, start, indent);
  }
  return text + '\n' +
         words::wrapped(
             "boltwitness --help lists the commands, boltwitness COMMAND --help tells "
             "how one is typed.",
             layout.width, "", "");
}

std::string topics_json() {
  auto topics = nlohmann::ordered_json::array();
  for (const auto& page : manual::pages()) {
    topics.push_back({{"name", page.name}, {"part", page.part}, {"title", manual::title_of(page)}});
  }
  return json_text(kTopicsFormat, {{"topics", topics}});
}

std::string manual_text(const manual::Page& page, const words::Page& layout) {
  using Kind = manual::Block::Kind;
  std::string text;
  auto before = Kind::Heading;
  for (const auto& block : manual::blocks_of(page)) {
    // Items of one list stand together; everything else is parted by an empty line.
    const bool one_list = block.kind == Kind::Item && before == Kind::Item;
    if (!text.empty() && !one_list) text += '\n';
    text += block_text(block, layout);
    before = block.kind;
  }
  return text;
}

std::string found_under(std::string_view word, const manual::Page& page,
                        const words::Page& layout) {
  return words::wrapped(fmt::format("\"{}\" is on the page {}, boltwitness help {}:", word,
                                    page.name, page.name),
                        layout.width, "", "") +
         '\n';
}

std::string manual_json(const manual::Page& page) {
  return json_text(
      kManualPageFormat,
      {{"name", page.name}, {"title", manual::title_of(page)}, {"markdown", page.text}});
}

}  // namespace screen
