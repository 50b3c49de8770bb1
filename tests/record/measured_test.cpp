#include "record/measured.h"

#include "failure/failure.h"
#include "support/catch.h"
#include "support/property.h"

namespace measured_test {

using failure::InputError;
using record::Mark;
using record::read_readings;

TEST_CASE("readings are typed as a setting and a mark", "[record]") {
  const auto readings = read_readings("60s 70s 75n 80o", std::nullopt);
  REQUIRE(readings.size() == 4);
  CHECK(readings[0].setting == 60.0);
  CHECK(readings[0].mark == Mark::Short);
  CHECK(readings[2].mark == Mark::NoMove);
  CHECK(readings[3].mark == Mark::On);
  CHECK(read_readings("60:short 70:no-move 80:past", std::nullopt) ==
        read_readings("60s 70n 80p", std::nullopt));
  CHECK(read_readings("62,5 s 65.5 on", std::nullopt) ==
        read_readings("62.5s 65.5o", std::nullopt));
}

TEST_CASE("readings may be parted by commas and typed in capitals", "[record]") {
  const auto readings = read_readings("60s 70s 80o", std::nullopt);
  for (const auto* text :
       {"60S 70S 80O", "60s, 70s, 80o", "60s,70s,80o", "60s; 70 Short, 80:ON", "60s 70s 80o,"}) {
    INFO(text);
    CHECK(read_readings(text, std::nullopt) == readings);
  }
  CHECK(read_readings("80s 6°, 85s 2°", std::nullopt) ==
        read_readings("80s 6° 85s 2°", std::nullopt));
}

TEST_CASE("a missing mark or degree sign is asked for", "[record]") {
  for (const auto* text : {"60 70 80", "60 700 800s", "60 70s"}) {
    INFO(text);
    CHECK_THROWS_WITH(read_readings(text, std::nullopt),
                      ContainsSubstring("after the setting 60 expected where the mark stood"));
  }
  for (const auto* text : {"80 short 6", "80s 6 85o", "80s 6, 85o", "80s 6 85 on"}) {
    INFO(text);
    CHECK_THROWS_WITH(read_readings(text, std::nullopt),
                      ContainsSubstring("if 6 is how far the mark still was, write 6°"));
  }
}

TEST_CASE("an offset may follow the mark, in degrees or along the head", "[record]") {
  const auto readings = read_readings("80 short 6° 85 short 2 deg 90 past 3°", std::nullopt);
  REQUIRE(readings.size() == 3);
  CHECK(readings[0].offset->in_degrees() == 6.0);
  CHECK(readings[2].offset->in_degrees() == -3.0);
  // Source: inspection notes, 1 mm on a 3/4 in nut (radius 14.3 to 16.5 mm) is 4.0 to 3.5 degrees.
  const auto edge = [](double radius_mm) {
    return read_readings("80 short 1mm", quantity::Length::millimetres(radius_mm))
        .front()
        .offset->in_degrees();
  };
  CHECK_THAT(edge(14.3), WithinAbs(4.0, 0.05));
  CHECK_THAT(edge(16.5), WithinAbs(3.5, 0.05));
  CHECK_THROWS_WITH(read_readings("80 short 1mm", std::nullopt), ContainsSubstring("--radius"));
}

TEST_CASE("what is no reading is refused with what was expected", "[record]") {
  for (const auto* text : {"80", "80x", "s80", "80 N·m s", "80Nm:s", "-80s", "0s", "80so", "80s70s",
                           "80s x", "1,234s"}) {
    INFO(text);
    CHECK_THROWS_AS(read_readings(text, std::nullopt), InputError);
  }
  CHECK_THROWS_WITH(read_readings("80", std::nullopt), ContainsSubstring("80o (on)"));
}

TEST_CASE("readings that cannot come from one test are refused", "[record]") {
  const auto check = [](const char* text) {
    record::check_readings(read_readings(text, std::nullopt));
  };
  CHECK_NOTHROW(check("60s 70n 75s 80o 85p"));
  CHECK_NOTHROW(check("60o"));
  CHECK_THROWS_WITH(check(""), ContainsSubstring("no readings"));
  CHECK_THROWS_WITH(check("70s 60s"), ContainsSubstring("must rise"));
  CHECK_THROWS_WITH(check("70s 70o"), ContainsSubstring("must rise"));
  // What a slipped finger may have been meant for: digits the wrong way round, a nought left out.
  CHECK_THROWS_WITH(check("20s 26s 29s 13o"), ContainsSubstring("13 may be mistyped (31?), and"));
  CHECK_THROWS_WITH(check("90s 100s 11o"), ContainsSubstring("11 may be mistyped (110?), and"));
  CHECK_THROWS_WITH(check("8s 1o"), ContainsSubstring("1 may be mistyped (10?), and"));
  CHECK_THROWS_WITH(check("11s 2p"), ContainsSubstring("2 may be mistyped (20?), and"));
  CHECK_THROWS_WITH(check("80s 75o"), ContainsSubstring("75 may be mistyped, and a test that was "
                                                        "started anew is entered as a second"));
  CHECK_THROWS_WITH(check("70o 75s"), ContainsSubstring("fall back"));
  CHECK_THROWS_WITH(check("70s 75p 80o"), ContainsSubstring("fall back"));
  for (const auto* denied : {"80o 30°", "70s 0°", "85p 0°"}) {
    INFO(denied);
    CHECK_THROWS_WITH(check(denied), ContainsSubstring("denies the mark"));
  }
  CHECK_THROWS_WITH(check("70n 3° 75o"), ContainsSubstring("did not move"));
}

TEST_CASE("written readings read back to the same", "[record]") {
  holds_always("read(write(readings)) == readings", [] {
    std::vector<record::SettingReading> readings;
    const int count = *rc::gen::inRange(1, 8);
    for (int i = 0; i < count; ++i) {
      record::SettingReading reading;
      reading.setting = *rc::gen::inRange(1, 100'000) / 100.0;
      reading.mark = *rc::gen::element(Mark::Short, Mark::On, Mark::Past, Mark::NoMove);
      if (*rc::gen::arbitrary<bool>()) {
        const double degrees = *rc::gen::inRange(1, 3600) / 10.0;
        reading.offset = quantity::Angle::degrees(reading.mark == Mark::Past ? -degrees : degrees);
      }
      readings.push_back(reading);
    }
    RC_ASSERT(read_readings(record::write_exact(readings), std::nullopt) == readings);
  });
}

}  // namespace measured_test
