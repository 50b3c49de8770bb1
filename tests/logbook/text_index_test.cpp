#include "logbook/text_index.h"

#include <chrono>

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
