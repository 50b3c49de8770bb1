#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

#include "finding/any_readings.h"
#include "finding/survey.h"
#include "finding/test_bolt.h"
#include "manual/page.h"
#include "support/catch.h"
#include "support/property.h"

namespace less_data_test {

// Less data never makes the uncertainty smaller or the verdict firmer. Whatever can be left out of
// a random test is left out, one at a time. Where the rule is broken it has to be by one of the
// exceptions that verdict.h and the page help found-torque name; each is told by what the two
// findings are made of, never by how they come out.

namespace {

using finding::Basis;
using finding::FoundTorque;
using finding::TestedBolt;
using quantity::Torque;
using record::Mark;
using record::SettingReading;

// What is known of a test.
struct Known {
  std::vector<SettingReading> readings;
  TestedBolt bolt;
  record::Wrench wrench = wrench_20_to_200();
};

FoundTorque found_of(const Known& known) {
  auto measured = measured_with("20s");
  measured.readings = known.readings;
  return finding::found_torque(measured, known.wrench, quantity::Percent::of_hundred(2.0),
                               known.bolt);
}

template <class T>
std::optional<T> sometimes(T value) {
  return *rc::gen::inRange(0, 4) == 0 ? std::nullopt : std::optional(std::move(value));
}

TestedBolt any_bolt() {
  TestedBolt bolt;
  const double diameter = *rc::gen::element(3.0, 4.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 30.0);
  bolt.thread = sometimes(fastener::Thread::metric(diameter, diameter / 7.0));
  bolt.length = sometimes(quantity::Length::millimetres(diameter * *rc::gen::inRange(1, 15)));
  bolt.condition =
      *rc::gen::elementOf(std::vector(fastener::kConditions.begin(), fastener::kConditions.end()));
  bolt.metal =
      sometimes(*rc::gen::element(fastener::BoltMetal::Steel, fastener::BoltMetal::Stainless));
  return bolt;
}

// Marks alone, or each with how far it stands off, along a line or about one.
std::vector<SettingReading> any_readings() {
  if (*rc::gen::arbitrary<bool>()) return any_rising_readings();
  const double truth = *rc::gen::inRange(300, 1500) / 10.0;
  const double per_degree = truth * *rc::gen::inRange(5, 100) / 1000.0;
  const double end = truth * *rc::gen::element(0.95, 1.05, 1.2);
  std::vector<SettingReading> readings;
  double setting = truth * *rc::gen::inRange(50, 95) / 100.0;
  while (setting < end || readings.empty()) {
    const double degrees = (truth - setting) / per_degree + *rc::gen::inRange(-10, 11) / 10.0;
    const auto mark = setting < truth ? Mark::Short : Mark::Past;
    const bool is_noted = (degrees > 0.0) == (mark == Mark::Short) && degrees != 0.0;
    readings.push_back({setting, mark, std::nullopt});
    if (is_noted) readings.back().offset = quantity::Angle::degrees(degrees);
    setting += truth * *rc::gen::inRange(2, 15) / 100.0;
  }
  return readings;
}

Known any_known() {
  Known known{any_readings(), any_bolt()};
  known.wrench.accuracy = sometimes(quantity::Percent::of_hundred(*rc::gen::inRange(5, 80) / 10.0));
  return known;
}

// Everything that can be left out of it, by name.
std::vector<std::pair<std::string, Known>> all_with_less(const Known& known) {
  std::vector<std::pair<std::string, Known>> all;
  const auto add = [&](const char* what, const auto& leave_out) {
    auto less = known;
    leave_out(less);
    all.emplace_back(what, std::move(less));
  };
  bool any_offset = false;
  for (std::size_t i = 0; i < known.readings.size(); ++i) {
    if (known.readings.size() > 1) {
      add("reading", [&](Known& less) {
        less.readings.erase(less.readings.begin() + static_cast<std::ptrdiff_t>(i));
      });
    }
    if (!known.readings[i].offset) continue;
    any_offset = true;
    add("offset", [&](Known& less) { less.readings[i].offset.reset(); });
  }
  if (any_offset) {
    add("all offsets", [](Known& less) {
      for (auto& reading : less.readings) reading.offset.reset();
    });
  }
  if (known.bolt.thread) add("size", [](Known& less) { less.bolt.thread.reset(); });
  if (known.bolt.length) add("length", [](Known& less) { less.bolt.length.reset(); });
  if (known.bolt.metal) add("grade", [](Known& less) { less.bolt.metal.reset(); });
  add("condition", [](Known& less) { less.bolt.condition = fastener::Condition::AsReceived; });
  if (known.wrench.accuracy) add("certificate", [](Known& less) { less.wrench.accuracy.reset(); });
  add("calibration", [](Known& less) { less.wrench.calibrated.reset(); });
  add("all about the bolt", [](Known& less) { less.bolt = {}; });
  return all;
}

// U, over the torque too, since the parts of wrench and stopping late go with it. A bound has no
// upper end to its uncertainty.
bool is_no_surer(const FoundTorque& less, const FoundTorque& more) {
  if (!less.best) return true;
  if (!more.best) return false;
  const double slack = 1.0 + 1e-12;
  const double u_less = less.budget.expanded().in_newton_metres();
  const double u_more = more.budget.expanded().in_newton_metres();
  return u_less * slack >= u_more ||
         u_less / less.best->in_newton_metres() * slack >= u_more / more.best->in_newton_metres();
}

bool is_decided(const FoundTorque& found, const record::ToleranceWindow& window) {
  return finding::judge(found, window) != finding::Verdict::Undecided;
}

record::ToleranceWindow any_window(const FoundTorque& about) {
  const double nominal = about.reference().in_newton_metres() * *rc::gen::inRange(70, 140) / 100.0;
  record::ToleranceWindow window;
  window.low = Torque::newton_metres(nominal * 0.9);
  window.high = Torque::newton_metres(nominal * 1.1);
  return window;
}

// The exceptions by which less may be surer than more, by the names of the manual.
std::vector<std::string> exceptions(const Known& less_known, const FoundTorque& less,
                                    const Known& more_known, const FoundTorque& more) {
  std::vector<std::string> all;
  const auto add_where = [&](bool holds, const char* name) {
    if (holds) all.emplace_back(name);
  };
  add_where(!less.best && more.best, "One bound alone");
  add_where(less_known.readings.size() != more_known.readings.size() &&
                less.reference() != more.reference(),
            "A moved estimate");
  const auto has_line = [](const FoundTorque& found) {
    return found.basis == Basis::Line || found.slope.from == finding::SlopeFrom::Offsets;
  };
  add_where(has_line(less) || has_line(more), "A line of fewer offsets");
  add_where(more.budget.mark * std::numbers::sqrt3 >
                more.slope.counts * (more.mark_error.in_degrees() * (1.0 + 1e-9)),
            "On the line too far");
  add_where(more.slope.counts > less.slope.counts &&
                (less_known.readings.size() == more_known.readings.size() ||
                 less.slope.from != more.slope.from),
            "A stiffer fastener");
  add_where(more.mark_error > less.mark_error, "A smaller head");
  add_where(record::permissible_deviation(more_known.wrench) >
                record::permissible_deviation(less_known.wrench),
            "A worse certificate");
  return all;
}

}  // namespace

TEST_CASE("less data is never surer, but for the exceptions that are named", "[finding]") {
  holds_always("whatever is left out", [] {
    const auto known = any_known();
    const auto more = found_of(known);
    const auto window = any_window(more);
    for (const auto& [what, less_known] : all_with_less(known)) {
      const auto less = found_of(less_known);
      const bool surer = !is_no_surer(less, more);
      const bool firmer = is_decided(less, window) && !is_decided(more, window);
      if (!surer && !firmer) continue;
      auto named = exceptions(less_known, less, known, more);
      // A bound says nothing of U, and a moved estimate only of what is U in itself.
      if (surer) {
        std::erase(named, "One bound alone");
        std::erase(named, "A moved estimate");
      }
      RC_LOG() << what << " left out: " << (surer ? "surer" : "firmer") << "\n";
      RC_ASSERT(!named.empty());
    }
  });
}

TEST_CASE("a grade or a calibration left out is never surer", "[finding]") {
  // No exception is about these two.
  holds_always("not in one test", [] {
    const auto known = any_known();
    const auto more = found_of(known);
    const auto window = any_window(more);
    for (const auto& [what, less_known] : all_with_less(known)) {
      if (what != "grade" && what != "calibration") continue;
      const auto less = found_of(less_known);
      RC_ASSERT(less.basis != more.basis || less.budget.expanded() >= more.budget.expanded());
      RC_ASSERT(less.basis != more.basis || is_decided(more, window) || !is_decided(less, window));
    }
  });
}

TEST_CASE("without the mark past the line the bracket is no narrower", "[finding]") {
  holds_always("the last pull left out", [] {
    auto known = any_known();
    const auto more = found_of(known);
    if (known.readings.back().mark != Mark::Past || known.readings.size() < 2) return;
    known.readings.pop_back();
    const auto less = found_of(known);
    if (less.basis != more.basis || less.basis != Basis::Bracket) return;
    if (known.readings.back().mark == Mark::Past) return;
    RC_ASSERT(*less.low <= *more.low);
    RC_ASSERT(*less.high >= *more.high);
  });
}

TEST_CASE("the exceptions to less data being less sure are these", "[finding]") {
  const auto page =
      std::ranges::find(manual::pages(), std::string_view("found-torque"), &manual::Page::name);
  REQUIRE(page != manual::pages().end());
  for (const char* name :
       {"One bound alone", "A moved estimate", "A line of fewer offsets", "On the line too far",
        "A stiffer fastener", "A smaller head", "A worse certificate"}) {
    CHECK_THAT(std::string(page->text), ContainsSubstring("- **" + std::string(name) + ".**"));
  }
  record::ToleranceWindow window;
  window.low = Torque::newton_metres(72.0);
  window.high = Torque::newton_metres(88.0);
  // One bound alone, worked by hand at 64 N·m: without the step u² = (0.04·64/√3)² + (0.02·64)² +
  // (1.92965·2.74857/√3)² = 2.184 + 1.638 + 9.377, U = 7.27, 71.27 < 72; half of the step of 8 adds
  // (4/√3)² = 5.333, U = 8.61.
  CHECK(finding::judge(found_with("64o"), window) == finding::Verdict::Low);
  CHECK(finding::judge(found_with("56s 64o"), window) == finding::Verdict::Undecided);
  // From below: above 60 with ±3.7 is above 55, the middle of 60 and 140 with ±46.5 is not.
  record::ToleranceWindow lower;
  lower.high = Torque::newton_metres(55.0);
  CHECK(finding::judge(found_with("60s"), lower) == finding::Verdict::High);
  CHECK(finding::judge(found_with("60s 140p"), lower) == finding::Verdict::Undecided);

  // A worse certificate.
  auto worse = wrench_20_to_200();
  worse.accuracy = quantity::Percent::of_hundred(6.0);
  const auto readings = measured_with("60s 70o").readings;
  CHECK(found_of({readings, bolt_m12(), worse}).budget.expanded() >
        found_of({readings, bolt_m12()}).budget.expanded());

  // A moved estimate: 70o left out moves the middle from 69 to 68, and U with it, but not U over
  // the torque; and the middle of 67.2 and 72.8 is 70.0 where the mark was on the line at 70.4.
  const auto all = found_with("60s 68o 70o");
  const auto fewer = found_with("60s 68o");
  CHECK(fewer.budget.expanded() < all.budget.expanded());
  CHECK(fewer.budget.expanded() / *fewer.best >= all.budget.expanded() / *all.best);
  CHECK(*found_with("64s 67.2s 70.4o 72.8p").best > *found_with("64s 67.2s 72.8p").best);

  // On the line too far: from 65 to 85, half of which, 10, is more than the 1.93° of the pen make:
  // what would be ±9.0 by the pen is 2 √(2.5²/3 + 10²/3 + (0.04·75)²/3 + (0.02·75)²) = ±12.75 and
  // holds them.
  const auto wide = found_with("60s 65o 85o");
  CHECK_THAT(wide.budget.expanded().in_newton_metres(), WithinAbs(12.754, 0.001));
  CHECK(found_with("60s 65o").budget.expanded() < wide.budget.expanded());

  // A stiffer fastener: a short length, and a condition that rubs harder than as received.
  auto short_bolt = bolt_m12();
  short_bolt.length = quantity::Length::millimetres(20.0);
  CHECK(found_of({readings, bolt_m12()}).budget.mark <
        found_of({readings, short_bolt}).budget.mark);
  auto dry = bolt_m12();
  dry.length = quantity::Length::millimetres(90.0);
  dry.metal = fastener::BoltMetal::Steel;
  auto as_received = dry;
  dry.condition = fastener::Condition::Dry;
  CHECK(found_of({readings, as_received}).budget.mark < found_of({readings, dry}).budget.mark);

  // A smaller head: half a pen line is 7.7° on an M3, 5.0° where the size is not known.
  TestedBolt m3;
  m3.thread = fastener::Thread::metric(3.0, 0.5);
  CHECK(found_of({readings, {}}).budget.mark < found_of({readings, m3}).budget.mark);

  // A line of fewer offsets: the four lie about a line, three of them on one.
  const auto about = found_with("60s 20.4° 70s 9.5° 75s 5° 80o");
  const auto on = found_with("60s 20° 70s 10° 75s 5° 80o");
  CHECK(on.basis == Basis::Line);
  CHECK(on.budget.reading < about.budget.reading);
}

}  // namespace less_data_test
