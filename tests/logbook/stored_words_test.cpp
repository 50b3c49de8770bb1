// The words that live on disk. A logbook of today has to be read by every later version, so none of
// them may ever change or go; new ones are added here.

#include <SQLiteCpp/SQLiteCpp.h>

#include <set>

#include "fastener/condition.h"
#include "logbook/schema.h"
#include "quantity/torque_unit.h"
#include "record/content.h"
#include "record/running_amount.h"
#include "support/catch.h"

namespace stored_words_test {

namespace {

template <class Value>
std::string words_of() {
  std::string words;
  for (const auto& word : record::Vocabulary<Value>::kWords) {
    words += (words.empty() ? "" : ", ") + std::string(word.text);
  }
  return words;
}

}  // namespace

TEST_CASE("the words that are kept on disk stay as they are", "[logbook]") {
  CHECK(words_of<record::BreakLoose>() == "normal, tight, seized, loose, sheared, empty");
  CHECK(words_of<record::DamagedThread>() == "fastener, hole, both");
  CHECK(words_of<record::Mark>() == "short, on, past, no-move");
  CHECK(words_of<record::Restart>() == "stacked, backed-off");
  CHECK(words_of<record::Neighbours>() == "tight, slack");
  CHECK(words_of<record::WrenchKind>() == "setting, indicating, electronic");
  CHECK(words_of<record::FluidMove>() == "drained, filled");
  CHECK(words_of<record::HoldPointMove>() == "begun, passed, closed");
  CHECK(words_of<record::PassKind>() == "snug, torque, check, loosen, angle, renew");
  CHECK(words_of<record::Decision>() == "use-as-is, re-torque, renew, repair, correct-record");
  CHECK(words_of<record::Counter>() == "running h, km, mi");
  CHECK(words_of<record::PictureFormat>() == "jpeg, png, webp");

  using fastener::Condition;
  CHECK(fastener::name_of(Condition::Dry) == "dry");
  CHECK(fastener::name_of(Condition::Oiled) == "oiled");
  CHECK(fastener::name_of(Condition::Threadlocker) == "threadlocker");
  CHECK(fastener::name_of(Condition::AntiSeize) == "anti-seize");
  CHECK(fastener::name_of(Condition::AsReceived) == "as-received");

  std::string units;
  for (const auto unit : quantity::kTorqueUnits) {
    units += (units.empty() ? "" : ", ") + std::string(quantity::name_of(unit));
  }
  CHECK(units == "N·m, cN·m, kN·m, ft·lbf, in·lbf, kgf·m, kgf·cm, ozf·in");
}

TEST_CASE("the kinds of line are those of the table of kinds", "[logbook]") {
  SQLite::Database database(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  logbook::apply_steps(database, logbook::schema_steps());
  std::set<std::string> in_table;
  SQLite::Statement row(database, "SELECT kind FROM entry_kind");
  while (row.executeStep()) in_table.insert(row.getColumn(0).getString());
  std::set<std::string> in_list;
  record::Kinds::for_each([&]<class Kind>() { in_list.emplace(record::Kinds::word_of<Kind>()); });
  CHECK(in_list == in_table);
  for (const auto* word :
       {"start", "wrench", "joint", "specification", "removal", "finding", "pull", "fluid", "item",
        "item return", "hold point", "hold point step", "renewal", "tightening", "stripe",
        "recheck", "photograph", "disposition", "strike"}) {
    CHECK(in_list.contains(word));
  }
}

TEST_CASE("texts that hold a value on disk are written as ever", "[logbook]") {
  const auto same = [](const std::string& text, const auto& read) {
    CHECK(record::write_exact(read(text)) == text);
  };
  for (const auto* text : {"circle", "line", "rectangle 2x8", "at 0,0 40,0 40,25.5"}) {
    same(text, record::read_layout);
  }
  for (const auto* text : {"4 h", "8 days", "6 weeks", "50 running h", "500 km", "300.5 mi"}) {
    same(text, record::read_recheck_interval);
  }
  for (const auto* text :
       {"80 N·m", "80 N·m ±5%", "95 N·m ±5", "90-100 N·m", "min 90 N·m", "max 12 N·m",
        "40 ft·lbf; 60 ft·lbf, +90°", "50 N·m, loosen, 30 N·m, +90° (85-95)"}) {
    INFO(text);
    const auto written = record::write_exact(record::read_specification(text));
    CHECK(record::write_exact(record::read_specification(written)) == written);
  }
  CHECK(record::write_utc(record::read_moment("2026-03-02T08:15Z")) == "2026-03-02T08:15:00.000Z");
  CHECK(record::write_day(record::read_day("2026-03-02")) == "2026-03-02");
}

}  // namespace stored_words_test
