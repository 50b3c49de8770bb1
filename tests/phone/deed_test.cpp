#include "phone/deed.h"

#include "failure/failure.h"
#include "phone/pairing.h"
#include "support/catch.h"
#include "support/refusal.h"

namespace deed_test {

using phone::read_deed;

namespace {
constexpr const char* kOut =
    R"({"id":"9abc-0123456789ab","at":5,"kind":"out","joint":"J06","position":3,"marked":false})";
}

TEST_CASE("a deed is read member by member", "[phone]") {
  const auto deed = read_deed(kOut);
  CHECK(deed.id.tail == "9abc-0123456789ab");
  CHECK(deed.at == 5);
  CHECK(deed.kind == "out");
  CHECK(deed.joint == "J06");
  CHECK(deed.position == 3);
  CHECK_FALSE(deed.marked);
}

TEST_CASE("a photograph is a deed on a line and the bytes behind it", "[phone]") {
  const std::string deed = R"({"id":"9abc-0123456789ab","kind":"photograph","where":"J06"})";
  const std::string body = deed + "\n\xff\n\xd8";
  const auto read = phone::read_photograph(body);
  CHECK(read.where == "J06");
  CHECK(read.picture == "\xff\n\xd8");
  CHECK(read.id.check.size() == 3);
  CHECK(read.id.check != phone::read_photograph(deed + "\nother").id.check);
  CHECK_THAT(refusal_of([&] { return phone::read_photograph(deed); }),
             ContainsSubstring("no picture"));
  CHECK_THAT(refusal_of([&] { return phone::read_photograph(deed + "\n"); }),
             ContainsSubstring("no picture"));
  CHECK_THAT(refusal_of([&] { return phone::read_photograph(std::string(kOut) + "\nbytes"); }),
             ContainsSubstring("that of a photograph"));
  CHECK_THAT(
      refusal_of([&] { return phone::read_photograph(std::string(70'000, ' ') + "\nbytes"); }),
      ContainsSubstring("no picture"));
}

TEST_CASE("the check is of what is asked, in whatever order it stands", "[phone]") {
  const auto turned = read_deed(
      R"({"marked":false,"position":3,"joint":"J06","kind":"out","at":5,"id":"9abc-0123456789ab"})");
  CHECK(turned == read_deed(kOut));
  const auto other = read_deed(
      R"({"id":"9abc-0123456789ab","at":5,"kind":"out","joint":"J06","position":2,"marked":false})");
  CHECK(other.id.check != read_deed(kOut).id.check);
}

TEST_CASE("what is no deed is refused with what is wrong about it", "[phone]") {
  for (const auto* wrong :
       {"", "[]", "5", "{", "{}", R"({"id":"9abc-0123456789ab","at":"now"})",
        R"({"id":"9abc-0123456789ab","at":-1})", R"({"id":"9abc-0123456789ab","marked":1})",
        R"({"id":"9abc-0123456789ab","position":1.5})",
        R"({"id":"9abc-0123456789ab","position":99999999999999999999})",
        R"({"id":"9abc-0123456789ab","joint":["J06"]})",
        R"({"id":"9abc-0123456789ab","unknown":"x"})", R"({"id":"1abc-0123456789ab"})",
        R"({"id":"9ABC-0123456789AB"})", R"({"id":"9abc-0123456789ab","of":"something"})",
        R"({"id":"9abc-0123456789ab","id":"9abc-0123456789ab"})"}) {
    INFO(wrong);
    CHECK_THROWS_AS(read_deed(wrong), failure::InputError);
  }
  const auto long_note = R"({"id":"9abc-0123456789ab","note":")" + std::string(5'000, 'x') + "\"}";
  CHECK_THROWS_AS(read_deed(long_note), failure::InputError);
  CHECK_THROWS_AS(read_deed(std::string(20'000, ' ') + kOut), failure::InputError);
}

TEST_CASE("a pairing code is good for one phone, however it is typed", "[phone]") {
  phone::PairingCode code;
  auto typed = code.shown();
  CHECK(typed.size() == 9);
  for (char& c : typed) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  typed.erase(4, 1);
  CHECK(code.take(typed));
  CHECK_FALSE(code.take(typed));
}

TEST_CASE("a code that was guessed at ten times is another one", "[phone]") {
  phone::PairingCode code;
  const auto first = code.shown();
  for (int i = 0; i < 9; ++i) CHECK_FALSE(code.take("AAAA-AAAA"));
  CHECK(code.shown() == first);
  CHECK_FALSE(code.take("AAAA-AAAA"));
  CHECK(code.shown() != first);
}

TEST_CASE("so many in so long a time, from each address by itself", "[phone]") {
  phone::RateLimit limit(3, std::chrono::seconds(10));
  const phone::RateLimit::Clock::time_point start;
  for (int i = 0; i < 3; ++i) CHECK(limit.take("a", start + std::chrono::seconds(i)));
  CHECK_FALSE(limit.take("a", start + std::chrono::seconds(9)));
  CHECK(limit.take("b", start + std::chrono::seconds(9)));
  CHECK(limit.take("a", start + std::chrono::seconds(10)));
}

}  // namespace deed_test
