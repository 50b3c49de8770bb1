#include "fastener/thread_geometry.h"

#include "fastener/printed.h"
#include "fastener/thread_text.h"
#include "support/catch.h"
#include "support/check_values.h"
#include "support/published.h"

namespace thread_geometry_test {

using fastener::read_thread;

TEST_CASE("metric thread measures agree with the published tables", "[fastener][published]") {
  // Source: metric_threads.csv. d2 and d3 from a metric thread chart, seen. Stress areas of the
  // coarse threads and of M36x3 and M39x3 seen, those of the other fine threads from memory
  // (ISO 898-1). The tables print three digits, rounded to nearest.
  int measures = 0;
  int areas_seen = 0;
  int areas_from_memory = 0;
  for (const auto& row : read_check_values("metric_threads.csv")) {
    INFO(row.at("thread"));
    const auto thread = read_thread(row.at("thread"));
    if (!row.at("d2_mm").empty()) {
      const Printed d2(row.at("d2_mm"));
      const Printed d3(row.at("d3_mm"));
      // The chart cuts some digits: d2 5.3505 is printed 5.35, d3 18.9328 is printed 18.933.
      CHECK_PUBLISHED(Published::Seen, fastener::pitch_diameter(thread).in_millimetres(),
                      WithinAbs(d2.value, 0.00055));
      CHECK_PUBLISHED(Published::Seen, fastener::root_diameter(thread).in_millimetres(),
                      WithinAbs(d3.value, 0.00055));
      measures += 2;
    }
    const double area = fastener::stress_area(thread).in_square_millimetres();
    const Printed printed(row.at("stress_area_mm2"));
    // M39x3 is printed 1028 by one source; 1030 in ISO 898-1 is the same to three digits.
    CHECK_PUBLISHED(published_as(row.at("area_how_known")), area,
                    WithinAbs(printed.value, 0.5 * printed.last_digit * 1.1));
    (row.at("area_how_known") == "seen" ? areas_seen : areas_from_memory) += 1;
  }
  CHECK(measures == 28);
  CHECK(areas_seen == 22);
  CHECK(areas_from_memory == 14);
}

TEST_CASE("unified stress and root areas agree with the published tables",
          "[fastener][published]") {
  // Source: unified_threads.csv: Shigley 9th ed. Table 8-2 and Machine Design Nov. 1977, seen. The
  // tables round areas to three digits, the older ones upwards or downwards: within 0.2 %.
  // #5-44 from memory (ASME B1.1), since the seen 0.00880 is a misprint.
  int stress_areas = 0;
  int root_areas = 0;
  for (const auto& row : read_check_values("unified_threads.csv")) {
    const auto text = row.at("size") + "-" + row.at("threads_per_inch");
    INFO(text);
    const auto thread = read_thread(text);
    CHECK(fastener::name_of(thread.series()) == row.at("series"));
    CHECK_PUBLISHED(published_as(row.at("how_known")),
                    fastener::stress_area(thread).in_square_inches(),
                    WithinRel(std::stod(row.at("stress_area_in2")), 0.002));
    ++stress_areas;
    if (!row.at("root_area_in2").empty()) {
      CHECK_PUBLISHED(Published::Seen, fastener::root_area(thread).in_square_inches(),
                      WithinRel(std::stod(row.at("root_area_in2")), 0.002));
      ++root_areas;
    }
  }
  CHECK(stress_areas == 40);
  CHECK(root_areas == 36);
}

TEST_CASE("unified diameters agree with the published tables", "[fastener][published]") {
  // Source: unified_measures.csv: a fine thread table with the root of the UNR form and a coarse
  // thread table up to 4 in, both seen. Diameters are printed to a ten-thousandth of an inch, some
  // cut; areas to three digits, the older ones 0.25 % off. Left out are two roots of the fine table
  // that its own neighbours contradict (3/4-16 0.6763 and 1-12 0.9001).
  int checked = 0;
  for (const auto& row : read_check_values("unified_measures.csv")) {
    INFO(row.at("thread") << " " << row.at("measure"));
    const auto thread = read_thread(row.at("thread"));
    const auto& measure = row.at("measure");
    const double value = std::stod(row.at("value_in"));
    ++checked;
    if (measure == "root area" || measure == "stress area") {
      const auto area =
          measure == "root area" ? fastener::root_area(thread) : fastener::stress_area(thread);
      CHECK_PUBLISHED(Published::Seen, area.in_square_inches(), WithinRel(value, 0.0025));
      continue;
    }
    const auto diameter = measure == "pitch diameter"  ? fastener::pitch_diameter(thread)
                          : measure == "root diameter" ? fastener::root_diameter(thread)
                                                       : fastener::nut_minor_diameter(thread);
    CHECK_PUBLISHED(Published::Seen, diameter.in_inches(), WithinAbs(value, 0.0001));
  }
  CHECK(checked == 114);
}

TEST_CASE("the least diameters of tapped holes are the basic ones", "[fastener][published]") {
  // Source: nut_measures.csv: an internal thread chart after ASME B1.13M (mm) and a table of UNC 2B
  // threads (in), seen: the least pitch and minor diameters. Three decimals of a millimetre, a
  // ten-thousandth of an inch, minor diameters in inches to a thousandth from #6 on. Left out are
  // two misprints of the minor diameter, 2-56 0.667 and 1/2-13 0.4700.
  int checked = 0;
  for (const auto& row : read_check_values("nut_measures.csv")) {
    INFO(row.at("thread") << " " << row.at("measure"));
    const auto thread = read_thread(row.at("thread"));
    const bool pitch = row.at("measure") == "pitch diameter";
    const auto diameter =
        pitch ? fastener::pitch_diameter(thread) : fastener::nut_minor_diameter(thread);
    const double value = std::stod(row.at("value"));
    if (thread.is_metric()) {
      CHECK_PUBLISHED(Published::Seen, diameter.in_millimetres(), WithinAbs(value, 0.00055));
    } else {
      CHECK_PUBLISHED(Published::Seen, diameter.in_inches(),
                      WithinAbs(value, pitch ? 0.0001 : 0.00055));
    }
    ++checked;
  }
  CHECK(checked == 85);
}

TEST_CASE("the nut's minor diameter follows ISO 724", "[fastener][published]") {
  // Source: metric thread chart (D1 of M6 4.917, M10 8.376, M20 17.294), seen; its M18 is
  // misprinted.
  const auto minor = [](const char* text) {
    return fastener::nut_minor_diameter(read_thread(text)).in_millimetres();
  };
  CHECK_PUBLISHED(Published::Seen, minor("M6"), WithinAbs(4.917, 0.001));
  CHECK_PUBLISHED(Published::Seen, minor("M10"), WithinAbs(8.376, 0.001));
  CHECK_PUBLISHED(Published::Seen, minor("M18"), WithinAbs(15.294, 0.001));
}

TEST_CASE("the diameters of a thread keep their order", "[fastener]") {
  for (const auto* text : {"M1.6", "M10x1", "M64", "#0-80", "1/4-20", "4-4"}) {
    INFO(text);
    const auto thread = read_thread(text);
    CHECK(thread.diameter() > fastener::pitch_diameter(thread));
    CHECK(fastener::pitch_diameter(thread) > fastener::stress_diameter(thread));
    CHECK(fastener::stress_diameter(thread) > fastener::root_diameter(thread));
    CHECK(fastener::nut_minor_diameter(thread) > fastener::root_diameter(thread));
  }
}

}  // namespace thread_geometry_test
