#include "logbook/text_index.h"

#include <chrono>
#include <iterator>

#include "support/catch.h"
#include "support/property.h"

namespace text_index_test {

using logbook::TextIndex;

namespace {

// The numbers of the texts that hold the words.
std::vector<int> found(TextIndex& index, const std::string& words) {
  std::vector<int> numbers;
  for (const auto& hit : index.find(words)) numbers.push_back(static_cast<int>(hit.number));
  return numbers;
}

}  // namespace

TEST_CASE("plain words become quoted ones, the last a prefix", "[logbook]") {
  CHECK(logbook::quoted_query("case split") == "\"case\" \"split\" *");
  CHECK(logbook::quoted_query("  5\" \"bolt ") == "\"5\"\"\" \"\"\"bolt\" *");
  CHECK(logbook::quoted_query(" \t ").empty());
}

TEST_CASE("all words have to be there, the last may be cut short", "[logbook]") {
  TextIndex index;
  index.add(1, {"J06/03 out, broke tight, bag D1", "", "KB", ""});
  index.add(2, {"J06/04 out, broke normal, bag D1", "", "LM", "wrong position"});
  index.add(3, {"J07 specified 80 N·m", "80 Nm", "KB", ""});
  CHECK(found(index, "bag D1") == std::vector{1, 2});
  CHECK(found(index, "bag tight") == std::vector{1});
  CHECK(found(index, "tig") == std::vector{1});
  CHECK(found(index, "tig bag").empty());  // only the last word may be cut short
  CHECK(found(index, "J06/04") == std::vector{2});
  CHECK(found(index, "80 N·m") == std::vector{3});
  CHECK(found(index, "80 Nm") == std::vector{3});
  CHECK(found(index, "LM") == std::vector{2});
  CHECK(found(index, "position") == std::vector{2});
  CHECK(index.find("tight")[0].passage == "J06/03 out, broke *tight*, bag D1");
}

TEST_CASE("what the sieve holds back, no words of a search would have found", "[logbook]") {
  using Text = TextIndex::Text;
  const Text texts[] = {{"J06/03 out, broke tight, bag D1", "", "KB", ""},
                        {"J06/04 found 80 N·m ±3 N·m", "79s 80o", "LM", "wrong position"},
                        {"Gehäuse, naïve Größe", "", "", ""},
                        {"Geha\u0308use 45°", "", "KB", ""},
                        {"½ turn, 10²", "", "", ""},
                        {"", "", "", ""}};
  const char* const searches[] = {
      "bag",   "BAG d1", "D1 kb",     "gehause", "GEHAUSE kb", "n m",     "N·m",     "80 N·m",
      "größe", "grosse", "tight bag", "J06/04",  "j06-04",     "wrong p", "45°",     "45 kb",
      "--",    "\"",     "zz",        "10",      "naive g",    "½",       "turn 10", "position"};
  std::size_t held_back = 0;
  for (const auto* words : searches) {
    INFO(words);
    const TextIndex::Sieve sieve(words);
    TextIndex all;
    TextIndex sieved;
    for (std::size_t i = 0; i < std::size(texts); ++i) {
      all.add(static_cast<std::int64_t>(i), texts[i]);
      if (sieve.may_hold_all(texts[i])) {
        sieved.add(static_cast<std::int64_t>(i), texts[i]);
      } else {
        ++held_back;
      }
    }
    CHECK(found(sieved, words) == found(all, words));
  }
  CHECK(held_back > 20);
}

TEST_CASE("case and accents do not matter, composed or not", "[logbook]") {
  TextIndex index;
  index.add(1, {"Gehäuse, naïve Größe", "", "", ""});
  index.add(2, {"Geha\u0308use", "", "", ""});
  CHECK(found(index, "GEHAUSE") == std::vector{1, 2});
  CHECK(found(index, "gehäuse") == std::vector{1, 2});
  CHECK(found(index, "NAIVE") == std::vector{1});
}

TEST_CASE("whatever is typed is words and no query language", "[logbook]") {
  TextIndex index;
  index.add(1, {"NOT to be tightened OR loosened NEAR the shaft", "", "", ""});
  index.add(2, {"a plain line", "", "", ""});
  CHECK(found(index, "NOT tightened") == std::vector{1});
  CHECK(found(index, "plain OR").empty());
  CHECK(found(index, "says:plain").empty());
  CHECK(found(index, "pla*").size() == 1);
  CHECK(found(index, "\"").empty());
  holds_always("no text is an error", [&index] {
    const auto words = *rc::gen::container<std::string>(
        rc::gen::element('a', 'p', ' ', '"', '\'', '*', '(', ')', ':', '^', '-', '+', '{', '}', ',',
                         ';', '\\', '%', '\xc3', '\xa4', '\n', '.'));
    (void)index.find(words);
  });
}

}  // namespace text_index_test
