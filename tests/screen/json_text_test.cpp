#include "screen/json_text.h"

#include <iterator>
#include <nlohmann/json.hpp>

#include "support/catch.h"

namespace json_text_test {

using nlohmann::ordered_json;
using screen::json_value;

TEST_CASE("a document written list by list is the one written as a whole", "[screen]") {
  const ordered_json elements[] = {
      {{"n", 1}, {"says", "80 N·m\nand \"more\""}, {"none", nullptr}},
      {{"n", 2}, {"rows", {1, 2, {{"deep", ordered_json::array()}}}}, {"empty", ""}},
      {{"hidden", "a\u202Eb\u0007"}, {"share", 0.1}},
      ordered_json::object(),
      ordered_json::array(),
      "a word"};
  for (std::size_t count = 0; count <= std::size(elements); ++count) {
    screen::JsonList list;
    auto whole = ordered_json::array();
    for (std::size_t i = 0; i < count; ++i) {
      list.add(elements[i]);
      whole.push_back(elements[i]);
    }
    const ordered_json beside = {{"a", {1, 2}}, {"b", ordered_json::array()}};
    constexpr screen::AnswerFormat kFormat{"boltwitness trial", 2};
    INFO(count);
    CHECK(screen::json_document(kFormat, {{"list", list.take()}, {"beside", json_value(beside)}}) ==
          screen::json_text(kFormat, {{"list", whole}, {"beside", beside}}));
    CHECK(list.take() == "[]");
  }
}

}  // namespace json_text_test
