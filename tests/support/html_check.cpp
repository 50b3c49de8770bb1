#include "support/html_check.h"

#include <algorithm>
#include <array>
#include <set>
#include <stdexcept>
#include <string_view>
#include <utility>
#include <vector>

namespace {

using Words = std::set<std::string_view>;

constexpr std::array<std::pair<std::string_view, char>, 5> kReferences = {
    {{"&amp;", '&'}, {"&lt;", '<'}, {"&gt;", '>'}, {"&quot;", '"'}, {"&#39;", '\''}}};

const Words kEmpty = {"meta", "col", "line", "circle", "rect", "path", "polygon", "img"};
const Words kPhrasing = {"span", "del", "strong", "em", "code", "a"};
const Words kAttributes = {"lang",
                           "charset",
                           "http-equiv",
                           "content",
                           "name",
                           "class",
                           "id",
                           "role",
                           "tabindex",
                           "aria-label",
                           "scope",
                           "colspan",
                           "data-heading",
                           "style",
                           "viewBox",
                           "width",
                           "height",
                           "font-size",
                           "text-anchor",
                           "x",
                           "y",
                           "x1",
                           "y1",
                           "x2",
                           "y2",
                           "cx",
                           "cy",
                           "r",
                           "d",
                           "points",
                           "shape-rendering",
                           "href",
                           "src",
                           "alt"};

// What each element may stand in; anything else is unknown.
bool may_stand_in(std::string_view element, std::string_view parent) {
  const Words flow = {"main", "nav", "section", "div", "figure", "td", "li"};
  if (element == "html") return parent.empty();
  if (element == "head" || element == "body") return parent == "html";
  if (element == "meta" || element == "style") return parent == "head";
  if (element == "title") return parent == "head" || parent == "svg";
  if (element == "main") return parent == "body";
  if (element == "tr") return parent == "thead" || parent == "tbody";
  if (element == "colgroup") return parent == "table";
  if (element == "col") return parent == "colgroup";
  if (element == "td" || element == "th") return parent == "tr";
  if (element == "thead" || element == "tbody" || element == "caption") return parent == "table";
  if (element == "li") return parent == "ul" || parent == "ol";
  if (element == "figcaption" || element == "img") return parent == "figure";
  if (element == "text" || element == "line" || element == "circle" || element == "rect" ||
      element == "path" || element == "polygon") {
    return parent == "svg";
  }
  if (kPhrasing.contains(element)) {
    return flow.contains(parent) || parent == "p" || parent == "h2" || parent == "h3";
  }
  const Words blocks = {"nav", "section", "div", "figure", "h1", "h2",    "h3",
                        "h4",  "pre",     "p",   "ul",     "ol", "table", "svg"};
  return blocks.contains(element) && flow.contains(parent);
}

class Reader {
 public:
  explicit Reader(std::string_view page) : rest_(page) {}

  void read() {
    constexpr std::string_view kDoctype = "<!DOCTYPE html>\n<!-- ";
    if (!rest_.starts_with(kDoctype)) fail("it does not begin with its doctype");
    rest_.remove_prefix(rest_.find("-->") + 3);
    while (!rest_.empty()) {
      if (rest_.starts_with("</")) {
        end_tag();
      } else if (rest_.starts_with("<")) {
        start_tag();
      } else {
        const auto text = take_until('<');
        check_text(text);
        if (open_.empty() && text.find_first_not_of('\n') != std::string_view::npos) {
          fail("text outside the page");
        }
      }
    }
    if (!open_.empty()) fail("<" + std::string(open_.back()) + "> is never closed");
  }

  [[nodiscard]] const std::string& text() const { return text_; }

 private:
  [[noreturn]] void fail(const std::string& what) const {
    throw std::runtime_error(what + ", before: " + std::string(rest_.substr(0, 80)));
  }

  std::string_view take_until(char mark) {
    const auto end = std::min(rest_.find(mark), rest_.size());
    const auto taken = rest_.substr(0, end);
    rest_.remove_prefix(end);
    return taken;
  }

  void check_text(std::string_view text) {
    for (std::size_t i = 0; i < text.size(); ++i) {
      const char c = text[i];
      if (c == '<' || c == '>' || c == '"' || c == '\'') fail(std::string("a raw ") + c);
      if (static_cast<unsigned char>(c) < 0x20 && c != '\n' && c != '\t')
        fail("a control character");
      if (c != '&') {
        text_ += c;
        continue;
      }
      const auto known = std::ranges::find_if(kReferences, [&](const auto& reference) {
        return text.substr(i).starts_with(reference.first);
      });
      if (known == kReferences.end()) fail("an unknown reference");
      text_ += known->second;
      i += known->first.size() - 1;
    }
  }

  std::string_view take_name() {
    constexpr std::string_view kLetters =
        "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-";
    const auto end = std::min(rest_.find_first_not_of(kLetters), rest_.size());
    if (end == 0) fail("a name is missing");
    const auto name = rest_.substr(0, end);
    rest_.remove_prefix(end);
    return name;
  }

  void start_tag() {
    rest_.remove_prefix(1);
    const auto name = take_name();
    const auto parent = open_.empty() ? std::string_view() : open_.back();
    if (!may_stand_in(name, parent)) {
      fail("<" + std::string(name) + "> in <" + std::string(parent) + ">");
    }
    std::set<std::string_view> given;
    while (rest_.starts_with(" ")) {
      rest_.remove_prefix(1);
      const auto attribute = take_name();
      if (!kAttributes.contains(attribute)) fail("the attribute " + std::string(attribute));
      if (!given.insert(attribute).second) fail("an attribute twice");
      if (!rest_.starts_with("=\"")) fail("an attribute without a quoted value");
      rest_.remove_prefix(2);
      const auto value = take_until('"');
      check_text(value);
      // A link leads within the page, never away from it.
      if (attribute == "href" && !value.starts_with('#')) fail("a link away");
      // A picture stands in the page and is fetched from nowhere.
      if (attribute == "src" && !value.starts_with("data:image/")) fail("a picture from elsewhere");
      if (attribute == "id" && !ids_.insert(value).second) fail("an id twice");
      if (rest_.empty()) fail("a value without an end");
      rest_.remove_prefix(1);
    }
    if (kEmpty.contains(name)) {
      if (!rest_.starts_with("/>")) fail("<" + std::string(name) + "> holds something");
      rest_.remove_prefix(2);
      return;
    }
    if (!rest_.starts_with(">")) fail("<" + std::string(name) + "> does not end");
    rest_.remove_prefix(1);
    open_.push_back(name);
    if (name == "style") {
      const auto rules = rest_.substr(0, std::min(rest_.find("</style>"), rest_.size()));
      for (const std::string_view fetch : {"url(", "@import", "<"}) {
        if (rules.find(fetch) != std::string_view::npos) fail("style with " + std::string(fetch));
      }
      rest_.remove_prefix(rules.size());
    }
  }

  void end_tag() {
    rest_.remove_prefix(2);
    const auto name = take_name();
    if (open_.empty() || open_.back() != name) fail("</" + std::string(name) + "> out of turn");
    open_.pop_back();
    if (!rest_.starts_with(">")) fail("an end tag does not end");
    rest_.remove_prefix(1);
  }

  std::string_view rest_;
  std::vector<std::string_view> open_;
  std::set<std::string_view> ids_;
  std::string text_;
};

}  // namespace

std::string fault_of_page(const std::string& page) {
  try {
    Reader(page).read();
  } catch (const std::runtime_error& fault) {
    return fault.what();
  }
  return {};
}

std::string text_of_page(const std::string& page) {
  Reader reader(page);
  reader.read();
  return reader.text();
}
