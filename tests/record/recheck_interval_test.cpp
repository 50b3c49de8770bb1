#include "record/recheck_interval.h"

#include "support/catch.h"
#include "support/property.h"
#include "support/refusal.h"

namespace recheck_interval_test {

using record::Counter;
using record::read_recheck_interval;
using record::read_span_of_time;

TEST_CASE("a span of time is read in the words of a manual", "[record]") {
  const auto seconds = [](std::string_view text) {
    return read_span_of_time(text).seconds.count();
  };
  CHECK(seconds("90 s") == 90);
  CHECK(seconds("10 min") == 600);
  CHECK(seconds("10min") == 600);
  CHECK(seconds("1,5 h") == 5400);
  CHECK(seconds("4 hours") == 14'400);
  CHECK(seconds("7 days") == 604'800);
  CHECK(seconds("6 weeks") == 6 * 604'800);
  for (const auto* text : {"", "10", "min", "0 min", "-5 min", "0.3 s", "11 years", "1e9 s"}) {
    INFO(text);
    CHECK_THROWS_AS(read_span_of_time(text), failure::InputError);
  }
}

TEST_CASE("a span reads back from what was written of it", "[record]") {
  holds_always("write and read", [] {
    const record::SpanOfTime span{std::chrono::seconds(*rc::gen::inRange(1, 300'000'000))};
    RC_ASSERT(read_span_of_time(record::write_exact(span)) == span);
  });
}

TEST_CASE("the time left is told in two units and never rounded up", "[record]") {
  const auto left = [](int seconds) {
    return record::write_rounded(record::SpanOfTime{std::chrono::seconds(seconds)});
  };
  CHECK(left(0) == "0 s");
  CHECK(left(59) == "59 s");
  CHECK(left(570) == "9 min 30 s");
  CHECK(left(600) == "10 min");
  CHECK(left(3899) == "1 h 4 min");
  CHECK(left(86'400) == "1 day");
  CHECK(left(3 * 86'400 + 4 * 3600 + 59) == "3 days 4 h");
}

TEST_CASE("a re-check is due by the clock or by the machine's counter", "[record]") {
  CHECK(std::holds_alternative<record::SpanOfTime>(read_recheck_interval("4 h").after));
  CHECK(read_recheck_interval("50 running h") ==
        record::RecheckInterval(record::RunningAmount{50, record::Counter::RunningHours}));
  CHECK(read_recheck_interval("500 KM") ==
        record::RecheckInterval(record::RunningAmount{500, record::Counter::Kilometres}));
  CHECK(record::write_exact(read_recheck_interval("300 miles")) == "300 mi");
  CHECK(record::write_exact(read_recheck_interval("48 h")) == "2 days");
  CHECK_FALSE(read_recheck_interval("7 days").repeats);
  CHECK(read_recheck_interval(" Every 7 days").repeats);
  CHECK(record::write_exact(read_recheck_interval("every 500 km")) == "every 500 km");
  CHECK(read_recheck_interval("every 1 week") == read_recheck_interval("every 7 days"));
  CHECK_FALSE(read_recheck_interval("every 1 week") == read_recheck_interval("7 days"));
  CHECK_THROWS_WITH(read_recheck_interval("50"), ContainsSubstring("50 running h"));
  CHECK_THROWS_AS(read_recheck_interval("0 km"), failure::InputError);
}

TEST_CASE("a distance converts between kilometres and miles, hours never do", "[record]") {
  // Source: the international mile of 1959 is 1.609344 km exactly.
  const record::RunningAmount mile{1.0, Counter::Miles};
  CHECK(record::on_counter(mile, Counter::Kilometres)->amount == 1.609344);
  CHECK_THAT(record::on_counter({80.4672, Counter::Kilometres}, Counter::Miles)->amount,
             WithinRel(50.0, 1e-15));
  CHECK(record::on_counter(mile, Counter::Miles) == mile);
  CHECK_FALSE(record::on_counter(mile, Counter::RunningHours));
  CHECK_FALSE(record::on_counter({10.0, Counter::RunningHours}, Counter::Kilometres));
}

}  // namespace recheck_interval_test
