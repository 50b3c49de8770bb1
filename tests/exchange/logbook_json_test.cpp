#include "exchange/logbook_json.h"

#include <fmt/format.h>

#include "support/catch.h"
#include "support/refusal.h"
#include "support/whole_copy.h"

namespace logbook_json_test {

using Catch::Matchers::StartsWith;
using exchange::read_logbook_json;

namespace {

constexpr const char* kId = "01970000-0000-7000-8000-000000000001";
constexpr const char* kOther = "01970000-0000-7000-8000-000000000002";

record::StoredLine line(std::int64_t number, const std::string& id) {
  return {number,
          id,
          "joint",
          "KB",
          "2026-03-02T08:15:00.000Z",
          "2026-03-02T08:16:00.000Z",
          "00000000-0000-4000-8000-000000000001",
          false,
          {{"joint",
            {{{"code", "J01"},
              {"length_mm", 0.1},
              {"count", std::int64_t{4}},
              {"grade", record::ColumnValue()}}}}},
          std::nullopt};
}

std::string text_of_two() {
  return exchange::write_logbook_json({3, {line(1, kId), line(3, kOther)}});
}

// What is said where one piece of a good text is replaced by another.
std::string refusal_with(const std::string& piece, const std::string& other) {
  auto text = text_of_two();
  const auto at = text.find(piece);
  REQUIRE(at != std::string::npos);
  return refusal_of([&] { return read_logbook_json(text.replace(at, piece.size(), other)); });
}

}  // namespace

TEST_CASE("a copy that was written as JSON is read back", "[exchange]") {
  const auto text = text_of_two();
  CHECK_THAT(text, ContainsSubstring("\"length_mm\":0.1,\"count\":4,\"grade\":null"));
  const auto copy = read_logbook_json(text);
  CHECK(copy.schema == 3);
  REQUIRE(copy.lines.size() == 2);
  CHECK(copy.lines[1].line == 3);
  CHECK(copy.lines[1].tables[0].rows[0] == line(3, kOther).tables[0].rows[0]);
  CHECK(exchange::write_logbook_json(copy) == text);
}

TEST_CASE("a copy has the hashes of its lines from the schema on that has them", "[exchange]") {
  auto hashed = line(1, kId);
  hashed.hash = {"a", "b", "", "c"};
  const auto text = exchange::write_logbook_json({record::kFirstSchemaWithHashes, {hashed}});
  const auto copy = read_logbook_json(text);
  REQUIRE(copy.lines[0].hash);
  CHECK(copy.lines[0].hash->device_before == "a");
  CHECK(copy.lines[0].hash->file_before == "b");
  CHECK(copy.lines[0].hash->hash == "c");
  CHECK(exchange::write_logbook_json(copy) == text);
  CHECK_THAT(refusal_of([&] {
               return read_logbook_json(
                   exchange::write_logbook_json({record::kFirstSchemaWithHashes, {line(1, kId)}}));
             }),
             ContainsSubstring("/lines/0: \"chain\" is missing"));
  CHECK_THAT(refusal_of([&] {
               return read_logbook_json(exchange::write_logbook_json({3, {hashed}}));
             }),
             ContainsSubstring("nothing is known of \"chain\""));
}

TEST_CASE("JSON that is no copy is refused with its place", "[exchange]") {
  CHECK_THAT(refusal_with("\"kind\":\"joint\",", ""),
             ContainsSubstring("/lines/0: \"kind\" is missing"));
  CHECK_THAT(refusal_with("\"kind\"", "\"Kind\""), ContainsSubstring("/lines/0"));
  CHECK_THAT(refusal_with("\"kind\":", "\"more\":1,\"kind\":"),
             ContainsSubstring("/lines/0: nothing is known of \"more\""));
  CHECK_THAT(refusal_with("\"kind\":", "\"by\":\"x\",\"kind\":"),
             ContainsSubstring("\"by\" stands twice"));
  CHECK_THAT(refusal_with("\"line\":3", "\"line\":1"), StartsWith("/lines/1/line: \"1\""));
  CHECK_THAT(refusal_with("\"line\":1", "\"line\":0"), StartsWith("/lines/0/line: \"0\""));
  CHECK_THAT(refusal_with("\"line\":1", "\"line\":1.5"), ContainsSubstring("a whole number"));
  CHECK_THAT(refusal_with("\"line\":1", "\"line\":99999999999999999999"),
             ContainsSubstring("a whole number"));
  CHECK_THAT(refusal_with("\"line\":1", "\"line\":1e999"), ContainsSubstring("beyond"));
  CHECK_THAT(refusal_with(kOther, kId), StartsWith("/lines/1/id"));
  CHECK_THAT(refusal_with(kOther, "J06"), ContainsSubstring("expected a UUID"));
  CHECK_THAT(refusal_with("2026-03-02T08:15:00.000Z", "2026-02-30T08:15:00.000Z"),
             ContainsSubstring("/lines/0/done_at"));
  CHECK_THAT(refusal_with("2026-03-02T08:15:00.000Z", "2026-03-02T08:15"),
             ContainsSubstring("/lines/0/done_at"));
  CHECK_THAT(refusal_with("\"struck\":false", "\"struck\":0"), ContainsSubstring("true or false"));
  CHECK_THAT(refusal_with("\"KB\"", "\"K\\u001bB\""), ContainsSubstring("control characters"));
  CHECK_THAT(refusal_with("\"KB\"", "7"), ContainsSubstring("/lines/0/by: \"7\"; expected a text"));
  CHECK_THAT(refusal_with("\"J01\"", "[1]"),
             StartsWith("/lines/0/rows/joint/0/code: \"[1]\"; expected a text, a number or null"));
  CHECK_THAT(refusal_with("[{\"code\"", "[4,{\"code\""),
             StartsWith("/lines/0/rows/joint/0: \"4\"; expected a row"));
  CHECK_THAT(refusal_with("\"schema\":3", "\"schema\":\"3\""), StartsWith("/schema"));
  CHECK_THAT(refusal_with("boltwitness logbook", "other"), StartsWith("/format"));
}

TEST_CASE("a text that breaks off anywhere is refused", "[exchange]") {
  const auto text = text_of_two();
  for (std::size_t size = 0; size < text.find_last_of('}'); size += 7) {
    CHECK_THAT(refusal_of([&] { return read_logbook_json(text.substr(0, size)); }),
               ContainsSubstring("line ") && ContainsSubstring("column "));
  }
}

TEST_CASE("lines may come before what they are lines of, and the first fault is told",
          "[exchange]") {
  const auto text = exchange::write_logbook_json({3, {line(1, kId)}});
  const auto at = text.find("\"lines\"");
  auto turned =
      "{" + text.substr(at, text.rfind(']') - at + 1) + "," + text.substr(1, at - 2) + "}";
  CHECK(exchange::write_logbook_json(read_logbook_json(turned)) == text);
  // What is no copy at all is told as that, whatever stands in it.
  CHECK_THAT(refusal_of([] { return read_logbook_json("{\"lines\":[1,2]}"); }),
             ContainsSubstring("no copy of a logbook"));
}

TEST_CASE("an object of very many members is refused before it is searched for each",
          "[exchange]") {
  std::string text = "{";
  for (int i = 0; i < 2000; ++i) text += (i == 0 ? "\"" : ",\"") + std::to_string(i) + "\":1";
  CHECK_THAT(refusal_of([&] { return read_logbook_json(text + "}"); }),
             ContainsSubstring("more than 1000 members"));
}

TEST_CASE("hidden characters come back from a copy that shows none", "[exchange]") {
  auto hidden = line(1, kId);
  hidden.by = "K\u202EB\u200B";
  const auto text = exchange::write_logbook_json({3, {hidden}});
  CHECK_THAT(text, ContainsSubstring("K\\u202eB\\u200b"));
  CHECK(read_logbook_json(text).lines[0].by == hidden.by);
}

TEST_CASE("photographs stand in a copy with their bytes, each read alone", "[exchange]") {
  const std::string first(64, 'a');
  const std::string second(64, 'b');
  auto hashed = line(1, kId);
  hashed.hash = {"a", "b", "", "c"};
  record::LogbookCopy copy{record::kFirstSchemaWithPhotographs, {hashed}, {}, {first, second}};
  const auto text = exchange::write_logbook_json(copy, [&](const std::string& sha256) {
    return sha256 == first ? std::string("\0\xFFone", 5) : std::string("two");
  });
  const auto back = read_logbook_json(text);
  CHECK(back.photographs == copy.photographs);
  std::vector<std::string> bytes;
  exchange::LogbookJsonReader(text).each_photograph(
      [&](std::string_view each) { bytes.emplace_back(each); });
  CHECK(bytes == std::vector<std::string>{std::string("\0\xFFone", 5), "two"});
  const auto refused_with = [&](const std::string& piece, const std::string& other) {
    auto changed = text;
    changed.replace(changed.find(piece), piece.size(), other);
    return refusal_of([&] {
      (void)read_logbook_json(changed);
      exchange::LogbookJsonReader(changed).each_photograph([](std::string_view) {});
    });
  };
  CHECK_THAT(refused_with("dHdv", "dHd"), StartsWith("/photographs/1/bytes: this is no base64"));
  CHECK_THAT(refused_with("dHdv\"", "dHdv\",\"more\":1"), StartsWith("/photographs/1: nothing"));
  CHECK_THAT(refused_with("\"dHdv\"", "7"), StartsWith("/photographs/1/bytes: "));
  CHECK_THAT(refused_with(second, first), StartsWith("/photographs/1/sha256: "));
  CHECK_THAT(refused_with(second, "xyz"), StartsWith("/photographs/1/sha256: "));
  CHECK_THAT(refused_with(",\"photographs\":[", ",\"pictures\":["), ContainsSubstring("pictures"));
}

}  // namespace logbook_json_test
