#include "logbook/entry_id.h"

#include <set>

#include "support/catch.h"
#include "support/property.h"

namespace entry_id_test {

using logbook::next_entry_id;

namespace {
record::Moment at(std::int64_t milliseconds) {
  return record::Moment(std::chrono::milliseconds(milliseconds));
}
}  // namespace

TEST_CASE("an id is a version 7 UUID of its millisecond", "[logbook]") {
  // Source: RFC 9562 Appendix A.6 (from memory): time stamp 0x017F22E279B0 is
  // 2022-02-22T19:22:22.000Z; version 7 in the 13th digit, variant 8, 9, a or b in the 17th.
  const auto id = next_entry_id(record::read_moment("2022-02-22T19:22:22Z"), "");
  CHECK(id.substr(0, 14) == "017f22e2-79b0-");
  CHECK(id[14] == '7');
  CHECK(std::string("89ab").find(id[19]) != std::string::npos);
  CHECK(id.size() == 36);
}

TEST_CASE("ids rise, also within a millisecond and when the clock goes back", "[logbook]") {
  holds_always("every id is above the one before", [] {
    std::string last;
    std::int64_t clock = 1'780'000'000'000;
    for (int i = 0; i < 50; ++i) {
      clock += *rc::gen::inRange(-1000, 1000);
      const auto id = next_entry_id(at(clock), last);
      RC_ASSERT(id > last);
      RC_ASSERT(id[14] == '7');
      RC_ASSERT(std::string("89ab").find(id[19]) != std::string::npos);
      last = id;
    }
  });
}

TEST_CASE("counting on runs over from one part of the id into the next", "[logbook]") {
  // Worked by hand: the free bits are all ones, so the carry passes variant and version.
  CHECK(next_entry_id(at(0), "017f22e2-79b0-7fff-bfff-ffffffffffff").substr(0, 24) ==
        "017f22e2-79b1-7000-8000-");
  CHECK(next_entry_id(at(0), "017f22e2-79b0-7abc-8000-000000000000").substr(0, 24) ==
        "017f22e2-79b0-7abc-8000-");
  CHECK(next_entry_id(at(0), "017f22e2-79b0-7abc-bfff-ffffffffffff").substr(0, 24) ==
        "017f22e2-79b0-7abd-8000-");
}

TEST_CASE("two copies that count on from one id come to two", "[logbook]") {
  std::set<std::string> ids;
  for (int i = 0; i < 1000; ++i) {
    ids.insert(next_entry_id(at(0), "017f22e2-79b0-7abc-8000-0000000000ff"));
  }
  CHECK(ids.size() == 1000);
}

TEST_CASE("ids made at one moment differ", "[logbook]") {
  std::set<std::string> ids;
  for (int i = 0; i < 1000; ++i) ids.insert(next_entry_id(at(1'780'000'000'000), ""));
  CHECK(ids.size() == 1000);
}

TEST_CASE("an id that was chosen keeps its tail and rises all the same", "[logbook]") {
  const logbook::GivenId given{"9abc-0123456789ab", "def"};
  const auto id = logbook::entry_id_with(at(0x017F22E279B0), "", given);
  CHECK(id == "017f22e2-79b0-7def-9abc-0123456789ab");
  CHECK(logbook::given_in(id) == given);
  // The clock stands still, or has gone back: the millisecond counts on.
  CHECK(logbook::entry_id_with(at(0), "017f22e2-79b0-7abc-8000-000000000000", given) ==
        "017f22e2-79b0-7def-9abc-0123456789ab");
  CHECK(logbook::entry_id_with(at(0), "017f22e2-79b0-7fff-bfff-ffffffffffff", given) ==
        "017f22e2-79b1-7def-9abc-0123456789ab");
}

TEST_CASE("the tail of an id is the variant and 62 bits", "[logbook]") {
  CHECK(logbook::is_id_tail("8000-000000000000"));
  CHECK(logbook::is_id_tail("bfff-ffffffffffff"));
  for (const auto* other :
       {"", "7000-000000000000", "c000-000000000000", "8000-00000000000", "8000-0000000000000",
        "8000_000000000000", "8000-00000000000G", "8-00-000000000000", "8000-0000-0000000"}) {
    INFO(other);
    CHECK_FALSE(logbook::is_id_tail(other));
  }
}

}  // namespace entry_id_test
