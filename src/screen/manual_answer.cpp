#include "screen/manual_answer.h"

#include <nlohmann/json.hpp>

#include "screen/json_text.h"

namespace screen {
namespace {

// A line without its marks. Strong words are emphasised one by one, since a line may break in them.
std::string without_marks(std::string_view line, const words::Page& layout) {
  std::string text;
  std::string word;
  bool strong = false;
  const auto end_word = [&] {
    text += strong && !word.empty() ? words::strong(word, layout) : word;
    word.clear();
  };
  while (!line.empty()) {
    if (line.starts_with("**")) {
      end_word();
      strong = !strong;
      line.remove_prefix(2);
      continue;
    }
    const char next = line.front();
    if (next == ' ') {
      end_word();
      text += next;
    } else if (next != '*' && next != '`') {
      word += next;
    }
    line.remove_prefix(1);
  }
  end_word();
  return text;
}

}  // namespace

std::string topics_text(const words::Page& layout) {
  std::size_t longest = 0;
  for (const auto& page : manual::pages()) longest = std::max(longest, page.name.size());
  const std::string indent(longest + 4, ' ');
  auto text =
      words::wrapped("boltwitness help TOPIC tells about one of these:", layout.width, "", "") +
      '\n';
  for (const auto& page : manual::pages()) {
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
    topics.push_back({{"name", page.name}, {"title", manual::title_of(page)}});
  }
  return json_text({{"topics", topics}});
}

std::string manual_text(const manual::Page& page, const words::Page& layout) {
  std::string text;
  std::string_view rest = page.text;
  while (!rest.empty()) {
    auto line = rest.substr(0, rest.find('\n'));
    rest.remove_prefix(std::min(line.size() + 1, rest.size()));
    if (line.empty()) {
      text += '\n';
    } else if (line.starts_with('#')) {
      line.remove_prefix(line.find_first_not_of("# "));
      text += words::strong(line, layout) + '\n';
    } else if (line.starts_with("- ")) {
      text += words::wrapped(without_marks(line.substr(2), layout), layout.width, "  ", "      ");
    } else {
      text += words::wrapped(without_marks(line, layout), layout.width, "", "");
    }
  }
  return text;
}

std::string manual_json(const manual::Page& page) {
  return json_text(
      {{"name", page.name}, {"title", manual::title_of(page)}, {"markdown", page.text}});
}

}  // namespace screen
