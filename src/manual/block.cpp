#include "manual/block.h"

#include <algorithm>

namespace manual {
namespace {

std::string_view take_line(std::string_view& rest) {
  const auto line = rest.substr(0, rest.find('\n'));
  rest.remove_prefix(std::min(line.size() + 1, rest.size()));
  return line;
}

std::string trimmed_cell(std::string_view cell) {
  const auto first = cell.find_first_not_of(' ');
  if (first == std::string_view::npos) return {};
  return std::string(cell.substr(first, cell.find_last_not_of(' ') + 1 - first));
}

// "| a | b |"; a bar that is typed within a cell is no end of it.
std::vector<std::string> cells_of(std::string_view line) {
  std::vector<std::string> cells;
  std::string cell;
  bool typed = false;
  for (const char next : line.substr(1)) {
    if (next == '`') typed = !typed;
    if (next == '|' && !typed) {
      cells.push_back(trimmed_cell(cell));
      cell.clear();
    } else {
      cell += next;
    }
  }
  return cells;
}

bool parts_titles_from_rows(std::string_view line) {
  return line.starts_with("|-") && line.find_first_not_of("|-: ") == std::string_view::npos;
}

Block table_from(std::string_view line, std::string_view& rest) {
  Block table{Block::Kind::Table, 0, {}, {cells_of(line)}};
  while (rest.starts_with('|')) {
    const auto row = take_line(rest);
    if (!parts_titles_from_rows(row)) table.rows.push_back(cells_of(row));
  }
  return table;
}

Block typed_from(std::string_view& rest) {
  Block typed{Block::Kind::Typed, 0, {}, {}};
  while (!rest.empty()) {
    const auto line = take_line(rest);
    if (line.starts_with("```")) break;
    typed.text += std::string(line) + '\n';
  }
  return typed;
}

Block block_from(std::string_view line, std::string_view& rest) {
  if (line.starts_with("```")) return typed_from(rest);
  if (line.starts_with('|')) return table_from(line, rest);
  if (line.starts_with('#')) {
    const auto level = line.find_first_not_of('#');
    return {Block::Kind::Heading, static_cast<int>(level), std::string(line.substr(level + 1)), {}};
  }
  if (line.starts_with("- ")) return {Block::Kind::Item, 0, std::string(line.substr(2)), {}};
  if (line.starts_with("> ")) return {Block::Kind::Caution, 0, std::string(line.substr(2)), {}};
  return {Block::Kind::Paragraph, 0, std::string(line), {}};
}

}  // namespace

std::vector<Block> blocks_of(const Page& page) {
  std::vector<Block> blocks;
  std::string_view rest = page.text;
  while (!rest.empty()) {
    const auto line = take_line(rest);
    if (line.empty() || line.starts_with("<!--")) continue;
    blocks.push_back(block_from(line, rest));
  }
  return blocks;
}

std::vector<Span> spans_of(std::string_view text) {
  std::vector<Span> spans;
  auto style = Span::Style::Plain;
  auto around = Span::Style::Plain;  // what is typed may stand within strong words
  std::string run;
  const auto set = [&](Span::Style next) {
    if (!run.empty()) spans.push_back({style, run});
    run.clear();
    style = next;
  };
  const auto turn = [&](Span::Style mark) { set(style == mark ? Span::Style::Plain : mark); };
  while (!text.empty()) {
    const bool typed = style == Span::Style::Typed;
    if (text.front() == '`') {
      if (!typed) around = style;
      set(typed ? around : Span::Style::Typed);
    } else if (!typed && text.starts_with("**")) {
      turn(Span::Style::Strong);
      text.remove_prefix(1);
    } else if (!typed && text.front() == '*') {
      turn(Span::Style::Slanted);
    } else {
      run += text.front();
    }
    text.remove_prefix(1);
  }
  set(Span::Style::Plain);
  return spans;
}

std::string plain_text(std::string_view text) {
  std::string plain;
  for (const auto& span : spans_of(text)) plain += span.text;
  return plain;
}

}  // namespace manual
