// Nothing that is written makes a logbook unreadable: whatever a line holds, it is either kept and
// read again, or refused and the logbook is as before.

#include <cmath>
#include <filesystem>
#include <limits>

#include "failure/failure.h"
#include "logbook/digest.h"
#include "logbook/logbook.h"
#include "logbook/recording.h"
#include "quantity/length_text.h"
#include "quantity/number_text.h"
#include "support/property.h"
#include "support/temporary_folder.h"
#include "support/whole_copy.h"
#include "support/zone.h"

namespace read_back_test {

namespace {

// Kept before the lines that show it.
const std::string kPicture = "the bytes of a picture";

template <class Value>
Value one_of(const std::vector<Value>& values) {
  return values[*rc::gen::inRange<std::size_t>(0, values.size())];
}

// Mostly the first, now and then one of those at the edge of what can be kept or beyond it.
template <class Value>
Value at_the_edge(const Value& usual, const std::vector<Value>& edges) {
  return *rc::gen::inRange(0, 4) == 0 ? one_of(edges) : usual;
}

std::string some_text() {
  return at_the_edge<std::string>(
      "a word", {"", " ", "\"; --", "Dichtfl\u00e4che", "\u65e5\u672c", std::string(5000, 'x'),
                 "\x1b[2J", "\xff\xfe", std::string("a\0b", 3), "\u0085"});
}
// What may have been typed for a value that this is the text of.
std::string some_typing(const std::string& text) {
  return at_the_edge<std::string>("", {text, text, some_text()});
}
std::string some_code() {
  return at_the_edge<std::string>("J01", {"j01", "", "1", "a b", std::string(33, 'x'), "J/1"});
}
int some_count() {
  return at_the_edge<int>(4, {1, 10'000, 10'001, 0, -1, std::numeric_limits<int>::max(),
                              std::numeric_limits<int>::min()});
}
double some_number() {
  return at_the_edge<double>(
      80.5,
      {1e-300, 0.0, -1.0, 1e17, 1e300, 0.1, 1.0 / 3.0, std::numeric_limits<double>::infinity(),
       std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::denorm_min()});
}
std::vector<int> some_positions() {
  return at_the_edge<std::vector<int>>({1, 3}, {{}, {-1}, {0}, {10'000}, {10'001}, {2, 2}, {3, 1}});
}
std::vector<std::string> some_codes() {
  return at_the_edge<std::vector<std::string>>(
      {}, {{"J02"}, {"J02", "J03"}, {"J03", "J02"}, {"", "x y"}, {"J02", "j02"}});
}
double finite(double number) { return std::isfinite(number) ? number : 1.0; }
template <class Value>
std::optional<Value> maybe(const Value& value) {
  return *rc::gen::inRange(0, 2) == 0 ? std::optional<Value>() : std::optional(value);
}
std::optional<quantity::Angle> some_angle() {
  return maybe(quantity::Angle::degrees(finite(some_number())));
}
std::optional<quantity::Length> some_length() {
  return maybe(quantity::Length::millimetres(finite(some_number())));
}
quantity::Percent some_percent() {
  return quantity::Percent::of_hundred(
      at_the_edge<double>(4.0, {0.0, -1.0, 1e-300, 99.999, 100.0, 1e300}));
}
std::optional<record::RunningAmount> some_counter() {
  const auto counter = one_of<record::Counter>(
      {record::Counter::RunningHours, record::Counter::Kilometres, record::Counter::Miles});
  return maybe(record::RunningAmount{finite(some_number()), counter});
}
record::Mark some_mark() {
  return one_of<record::Mark>(
      {record::Mark::Short, record::Mark::On, record::Mark::Past, record::Mark::NoMove});
}
quantity::TorqueUnit some_unit() {
  return one_of<quantity::TorqueUnit>(
      {quantity::TorqueUnit::NewtonMetre, quantity::TorqueUnit::FootPoundForce});
}
record::ThroughAdapter some_adapter() {
  record::ThroughAdapter adapter;
  if (*rc::gen::inRange(0, 2) == 0) adapter = record::read_adapter("1.5 in", "350mm", "-45\u00b0");
  adapter.torque_ratio = at_the_edge(adapter.torque_ratio, {0.0, -1.0, some_number()});
  auto told = record::told_of(adapter);
  told.words = at_the_edge<std::string>("", {some_text()});
  told.angle_typed = at_the_edge(told.angle_typed, {some_text()});
  adapter.told = std::make_shared<const record::AdapterTold>(std::move(told));
  return adapter;
}

// Kinds of which a line is no more than a joint, positions and texts need nothing here.
template <class Kind>
void fill(Kind& content) {
  if constexpr (requires { content.joint; }) content.joint = some_code();
  if constexpr (requires { content.positions; }) content.positions = some_positions();
}
void fill(record::LogbookStart& start) {
  start = {some_text(), some_unit(), some_percent(), some_percent(), {}, {}};
  start.tolerance_typed = some_typing(quantity::write_exact(start.default_tolerance));
  start.method_typed = some_typing(quantity::write_exact(start.method_error));
}
void fill(record::Wrench& wrench) {
  wrench.name = some_text();
  wrench.scale = {at_the_edge(20.0, {some_number()}), at_the_edge(200.0, {some_number()}),
                  some_unit()};
  wrench.graduation = at_the_edge(1.0, {some_number()});
  wrench.accuracy = maybe(some_percent());
  wrench.serial = some_text();
  using namespace std::chrono;
  wrench.calibrated = maybe(at_the_edge<record::Day>(
      2026y / March / 2,
      {1900y / January / 1, 2999y / December / 31, 1899y / December / 31, 3000y / January / 1,
       2026y / February / 31, 32767y / January / 1, year(-5) / January / 1}));
  wrench.valid_months = at_the_edge(12, {0, -1, 120, 121});
  wrench.found_off = maybe(some_percent());
  wrench.scale_typed = some_typing(record::write_exact(wrench.scale));
}
void fill(record::Joint& joint) {
  joint.code = some_code();
  joint.holds = some_text();
  joint.size = at_the_edge<std::string>("M12x1.75", {some_text(), "M99"});
  joint.length = some_length();
  joint.grade = some_text();
  joint.into = at_the_edge<std::string>("", {some_text(), "S235"});
  joint.engaged = some_length();
  joint.seat = at_the_edge<std::string>("", {some_text(), "EN AC-46000"});
  joint.face = some_length();
  joint.face_typed = some_typing(joint.face ? quantity::write_exact(*joint.face) : "");
  joint.count = some_count();
  joint.layout = at_the_edge<record::Layout>(
      record::CircleLayout{},
      {record::LineLayout{}, record::RectangleLayout{2, 2}, record::RectangleLayout{1, 9},
       record::FreeLayout{{{0, 0}, {1, 0}, {1e300, -1e-300}, {some_number(), 2}}}});
  joint.after = some_codes();
  joint.covers = some_codes();
  joint.final_when = some_text();
  joint.order = at_the_edge<std::string>("", {some_text(), "1,3,2,4"});
  joint.passes = at_the_edge<std::string>("", {some_text(), "three-rounds"});
  if (const auto counter = some_counter()) joint.rechecks.push_back(*counter);
  joint.rechecks.push_back(record::SpanOfTime{std::chrono::seconds(at_the_edge<std::int64_t>(
      3600, {0, -1, 1, 316'224'000, 316'224'001, 1'000'000'000'000'000}))});
}
void fill(record::Specified& specified) {
  specified.joint = some_code();
  const auto typed = one_of<std::string>({"80 N\u00b7m", "40 Nm; 60 Nm, +90\u00b0"});
  specified.typed = at_the_edge<std::string>(typed, {some_text()});
  specified.procedure = record::read_specification(typed);
  specified.source = some_text();
  specified.positions = some_positions();
}
void fill(record::Removal& removal) {
  removal.joint = some_code();
  removal.positions = some_positions();
  removal.bag = some_text();
  removal.note = some_text();
  removal.other_length = some_length();
  removal.other_size = at_the_edge<std::string>("", {some_text(), "M12x1.75"});
}
record::SettingReading some_reading(double setting) {
  return {at_the_edge(setting, {some_number()}), some_mark(), some_angle()};
}
void fill(record::Measured& measured) {
  measured.joint = some_code();
  measured.position = some_count();
  measured.wrench = some_text();
  measured.unit = some_unit();
  for (int i = 0, n = *rc::gen::inRange(0, 4); i < n; ++i) {
    measured.readings.push_back(some_reading(60.0 + 5 * i));
  }
  measured.adapter = some_adapter();
  measured.prevailing =
      maybe(quantity::StatedTorque{finite(some_number()), quantity::TorqueUnit::NewtonMetre});
  measured.readings_typed = some_typing(record::write_exact(measured.readings));
}
void fill(record::Pull& pull) {
  pull.joint = some_code();
  pull.position = some_count();
  pull.wrench = some_text();
  pull.unit = some_unit();
  pull.reading = some_reading(70);
  pull.typed = some_typing(record::write_exact(pull.reading));
}
void fill(record::FluidAmount& fluid) {
  fluid.fluid = some_text();
  fluid.amount = quantity::Volume::millilitres(finite(some_number()));
  fluid.typed = some_typing(quantity::write_exact(fluid.amount.in_millilitres()) + " mL");
  fluid.note = some_text();
}
void fill(record::CountedItem& item) {
  item = {some_code(), some_text(), some_count(), some_code()};
}
void fill(record::ItemReturn& back) { back = {some_code(), some_count()}; }
void fill(record::HoldPoint& point) {
  point = {some_code(), some_text(),
           maybe(record::SpanOfTime{std::chrono::seconds(
               at_the_edge<std::int64_t>(600, {0, -1, 316'224'000, 316'224'001}))}),
           some_codes()};
}
void fill(record::HoldPointStep& step) {
  step = {some_code(), record::HoldPointMove::Passed, some_text()};
}
void fill(record::Tightening& tightening) {
  tightening.joint = some_code();
  tightening.positions = some_positions();
  tightening.pass = some_count();
  tightening.target = {record::PassKind::Torque,
                       maybe(quantity::Torque::newton_metres(finite(some_number()))), some_angle()};
  tightening.wrench = some_text();
  tightening.setting = maybe(some_number());
  tightening.unit = some_unit();
  tightening.adapter = some_adapter();
  tightening.turned = some_angle();
  tightening.skipped_why = some_text();
  tightening.in_order = *rc::gen::arbitrary<bool>();
  tightening.seen = some_text();
}
void fill(record::FinalStripe& stripe) {
  stripe.joint = some_code();
  stripe.positions = some_positions();
  stripe.counter = some_counter();
}
void fill(record::Recheck& recheck) {
  recheck.joint = some_code();
  recheck.positions = some_positions();
  recheck.turned = some_angle();
  recheck.counter = some_counter();
}
// Of the picture that Started keeps.
void fill(record::Photograph& photograph) {
  photograph.joint = some_code();
  photograph.positions = some_positions();
  photograph.deviation = some_text();
  photograph.note = some_text();
  photograph.width = some_count();
  photograph.height = some_count();
  photograph.length = at_the_edge<std::int64_t>(812, {0, -1, 8'388'608, 8'388'609});
  photograph.sha256 = at_the_edge(logbook::sha256(kPicture), {some_text()});
}
void fill(record::Disposition& disposition) {
  disposition.deviation = some_text();
  disposition.rule = some_text();
  disposition.joint = some_code();
  disposition.position = maybe(some_count());
  disposition.evidence = at_the_edge<std::string>("0123456789abcdef", {some_text()});
  disposition.judged_on = some_text();
  disposition.reason = some_text();
  disposition.second_person = some_text();
}

record::Moment some_moment() {
  return at_the_edge<record::Moment>(
      record::read_moment("2026-03-02T08:15Z"),
      {record::read_moment("1900-01-01"), record::read_moment("2999-12-31T23:59:59.999"),
       record::read_moment("1900-01-01T00:00+14:00"), record::Moment(std::chrono::milliseconds(-1)),
       record::Moment(), record::read_moment("1900-01-01") - std::chrono::days(3),
       record::read_moment("2999-12-31") + std::chrono::days(3),
       record::Moment(std::chrono::years(9000))});
}

std::string some_zone() {
  return one_of<std::string>({"UTC0", "CET-1CEST,M3.5.0,M10.5.0/3", "XXX+12", "YYY-14",
                              "Europe/Berlin", "America/St_Johns"});
}

logbook::Writer some_writer() {
  return {at_the_edge<std::string>("KB", {some_text()}), "00000000-0000-4000-8000-000000000001",
          some_moment(), at_the_edge(record::read_moment("2026-03-02T08:15Z"), {some_moment()})};
}

// The rows of the last line, as the file holds them.
std::vector<record::StoredTable> rows_of_last(const logbook::Logbook& logbook) {
  return copy_of(logbook).lines.back().tables;
}

logbook::Writer plain_writer() {
  const auto now = record::read_moment("2026-03-02T08:15Z");
  return {"KB", "00000000-0000-4000-8000-000000000001", now, now};
}

class Started {
 public:
  Started() {
    record::LogbookStart start;
    start.machine = "GB-1";
    logbook::start_logbook(path, start, plain_writer());
    auto logbook = logbook::Logbook::open_to_write(path);
    logbook::Recording recording(logbook, plain_writer());
    recording.keep_photograph(kPicture);
    recording.commit();
  }
  TemporaryFolder folder;
  std::string path = folder.file("a.bolts");
};

}  // namespace

TEST_CASE("a line of any kind is read back as it was written, or not written", "[logbook]") {
  record::Kinds::for_each([]<class Kind>() {
    if constexpr (record::OneOf<Kind, record::LogbookStart, record::Strike>) return;
    const Started started;
    auto logbook = logbook::Logbook::open_to_write(started.path);
    std::size_t lines_before = 1;
    int kept = 0;
    const auto try_some = [&] {
      const Zone zone(some_zone());
      Kind content;
      fill(content);
      bool is_kept = true;
      try {
        logbook::Recording recording(logbook, some_writer());
        recording.append(content);
        recording.commit();
      } catch (const failure::InputError&) {
        is_kept = false;
      }
      const Zone elsewhere(some_zone());
      const auto lines = logbook.history();
      RC_ASSERT(lines.size() == lines_before + (is_kept ? 1 : 0));
      lines_before = lines.size();
      (void)logbook.job();
      if (!is_kept || ++kept % 4 != 0) return;
      // What was read, written once more, gives the same rows; tried at every fourth, since it
      // reads the file through several times.
      const auto before = rows_of_last(logbook);
      logbook::Recording again(logbook, plain_writer());
      again.append(lines.back().content);
      again.commit();
      ++lines_before;
      const auto after = rows_of_last(logbook);
      RC_ASSERT(after.size() == before.size());
      for (std::size_t i = 0; i < before.size(); ++i) RC_ASSERT(after[i].rows == before[i].rows);
    };
    // Of a kind with many measures most are refused; some have to be kept for this to say anything.
    constexpr int kMostRounds = 20;
    for (int round = 0; round == 0 || (kept <= 3 && round < kMostRounds); ++round) {
      holds_always(std::string("every ") + std::string(record::Kinds::word_of<Kind>()), try_some);
    }
    INFO(record::Kinds::word_of<Kind>());
    CHECK(kept > 3);  // else nothing was tried but refusals
  });
}

TEST_CASE("a logbook is started so that it can be read, or not at all", "[logbook]") {
  holds_always("every first line", [] {
    const TemporaryFolder folder;
    const auto path = folder.file("a.bolts");
    record::LogbookStart start;
    fill(start);
    try {
      logbook::start_logbook(path, start, some_writer());
    } catch (const failure::InputError&) {
      RC_ASSERT_FALSE(std::filesystem::exists(path));
      return;
    }
    RC_ASSERT(logbook::Logbook::open_to_read(path).history().size() == 1U);
  });
}

}  // namespace read_back_test
