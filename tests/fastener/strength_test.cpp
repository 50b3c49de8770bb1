#include "fastener/strength.h"

#include <algorithm>

#include "failure/failure.h"
#include "fastener/printed.h"
#include "fastener/thread_generator.h"
#include "fastener/thread_text.h"
#include "support/catch.h"
#include "support/check_values.h"
#include "support/published.h"

namespace strength_test {

using fastener::Grade;
using fastener::read_grade;
using fastener::read_thread;
using fastener::strength_of;

namespace {

double in(const std::string& unit, quantity::Stress stress) {
  return unit == "ksi" ? stress.in_kips_per_square_inch() : stress.in_megapascals();
}

}  // namespace

TEST_CASE("every grade has its published strength at both ends of its sizes",
          "[fastener][published]") {
  // Source: strengths.csv. ISO 898-1 and ISO 3506-1 copies and Shigley's tables, seen; 5.8 and
  // A193 B7 from memory. A cell without proof stress: the standard gives none.
  int seen = 0;
  int from_memory = 0;
  for (const auto& row : read_check_values("strengths.csv")) {
    INFO(row.at("grade") << " " << row.at("thread"));
    const auto grade = read_grade(row.at("grade"));
    REQUIRE(grade.has_value());
    const auto strength = strength_of(*grade, read_thread(row.at("thread")));
    REQUIRE(strength.has_value());
    CHECK_FALSE(strength->note.has_value());
    const auto& unit = row.at("unit");
    CHECK(strength->proof.has_value() == !row.at("proof").empty());
    if (strength->proof) {
      CHECK_PUBLISHED(published_as(row.at("how_known")), in(unit, *strength->proof),
                      WithinRel(std::stod(row.at("proof")), 1e-12));
    }
    CHECK_PUBLISHED(published_as(row.at("how_known")), in(unit, strength->yield),
                    WithinRel(std::stod(row.at("yield")), 1e-12));
    CHECK_PUBLISHED(published_as(row.at("how_known")), in(unit, strength->tensile),
                    WithinRel(std::stod(row.at("tensile")), 1e-12));
    (row.at("how_known") == "seen" ? seen : from_memory) += 1;
  }
  CHECK(seen == 49);
  CHECK(from_memory == 6);
}

TEST_CASE("proof and ultimate loads agree with ISO 898-1", "[fastener][published]") {
  // Source: metric_loads.csv, copies of the load tables, seen. They print three digits, some cut
  // and some rounded up, of the product with the area of three digits (192 for 192.47 mm², 0.25 %).
  int checked = 0;
  for (const auto& row : read_check_values("metric_loads.csv")) {
    INFO(row.at("thread") << " " << row.at("class") << " " << row.at("quantity"));
    const auto thread = read_thread(row.at("thread"));
    const auto strength = strength_of(*read_grade(row.at("class")), thread);
    REQUIRE(strength.has_value());
    const auto stress =
        row.at("quantity") == "proof_load" ? strength->proof.value() : strength->tensile;
    const double load = std::stod(row.at("load_n"));
    CHECK_PUBLISHED(Published::Seen, fastener::load_at(stress, thread).in_newtons(),
                    WithinAbs(load, 0.003 * load + third_digit(load)));
    ++checked;
  }
  CHECK(checked == 202);
}

TEST_CASE("a grade is read however people type it", "[fastener]") {
  const auto all_read_as = [](const char* canonical, std::initializer_list<const char*> spellings) {
    for (const auto* spelling : spellings) {
      INFO(spelling);
      const auto grade = read_grade(spelling);
      REQUIRE(grade.has_value());
      CHECK(fastener::name_of(*grade) == canonical);
    }
  };
  all_read_as("8.8", {"8.8", "8,8", "class 8.8", "cl 8.8", "property class 8.8", "ISO 898-1 8.8"});
  all_read_as("10.9", {"10.9", " 10.9 ", "Class 10.9"});
  all_read_as("SAE 5",
              {"5", "SAE 5", "grade 5", "gr 5", "Gr. 5", "sae5", "SAE J429 grade 5", "GR5"});
  all_read_as("SAE 8", {"8", "gr 8", "SAE Grade 8"});
  all_read_as("SAE 8.2", {"8.2", "grade 8.2"});
  all_read_as("ASTM A325", {"A325", "astm a325", "A-325", "ASTM-A325"});
  all_read_as("ASTM A193 B7",
              {"B7", "b7", "A193 B7", "ASTM A193 grade B7", "a193b7", "A193 Gr. B7"});
  all_read_as("ASTM A354 BD", {"A354 BD", "A354BD", "A354 grade BD"});
  all_read_as("ASTM A307", {"A307", "A307 A", "A307 Grade A"});
  all_read_as("A2-70", {"A2-70", "a2 70", "A270", "A2_70"});
  all_read_as("A4-80", {"A4-80", "a4-80"});
}

TEST_CASE("the list of known grades reads back grade by grade", "[fastener]") {
  std::string_view rest = fastener::known_grades();
  int grades = 0;
  while (!rest.empty()) {
    const auto end = std::min(rest.find(", "), rest.size());
    INFO(rest);
    CHECK(read_grade(rest.substr(0, end)).has_value());
    rest.remove_prefix(std::min(end + 2, rest.size()));
    ++grades;
  }
  CHECK(grades == static_cast<int>(Grade::A4_80) + 1);
}

TEST_CASE("what is no grade is not taken for one", "[fastener]") {
  for (const auto* text :
       {"",      " ",    "3",     "4",     "6",       "9",           "88",
        "8.9",   "10",   "A2",    "A4",    "A1-70",   "A500",        "class 8",
        "-1",    "-8.8", "cl. 5", "ISO 8", "SAE 8.8", "SAE class 8", "class A325",
        "grade", "gr",   "steel", "8.8.8", "B8",      "SAE"}) {
    INFO(text);
    CHECK_FALSE(read_grade(text).has_value());
  }
}

TEST_CASE("a grade where its standard has none is refused or noted", "[fastener]") {
  const auto note = [](Grade grade, const char* thread) {
    return strength_of(grade, read_thread(thread)).value().note.value();
  };
  CHECK_FALSE(strength_of(Grade::Class9_8, read_thread("M18")).has_value());
  CHECK_FALSE(strength_of(Grade::Sae5_2, read_thread("1-1/8-7")).has_value());
  CHECK_FALSE(strength_of(Grade::AstmA325, read_thread("1-3/4-5")).has_value());
  CHECK_THAT(note(Grade::Class8_8, "1/2-13"), ContainsSubstring("marking of metric threads"));
  CHECK_THAT(note(Grade::Sae8, "M12"), ContainsSubstring("marking of inch threads"));
  CHECK_THAT(note(Grade::Class8_8, "M42"), ContainsSubstring("M1.6 to M39"));
  CHECK_THAT(note(Grade::A2_70, "M30"), ContainsSubstring("agreement"));
  CHECK_THAT(note(Grade::Sae5, "#10-24"), ContainsSubstring("begins at 1/4 in"));
  CHECK_THAT(note(Grade::AstmA354Bd, "3-4"), ContainsSubstring("lists less"));
  CHECK_FALSE(strength_of(Grade::AstmA193B7, read_thread("M30")).value().note.has_value());
}

TEST_CASE("where a standard gives no proof stress a share of yield stands in", "[fastener]") {
  const auto b7 = fastener::proof_basis(strength_of(Grade::AstmA193B7, read_thread("1-8")).value());
  CHECK(b7.from_yield);
  CHECK_THAT(b7.stress.in_kips_per_square_inch(), WithinRel(0.85 * 105.0, 1e-12));
  const auto class_8_8 =
      fastener::proof_basis(strength_of(Grade::Class8_8, read_thread("M10")).value());
  CHECK_FALSE(class_8_8.from_yield);
  CHECK(class_8_8.stress == quantity::Stress::megapascals(580));
}

TEST_CASE("strengths keep their order and no text brings the reader down", "[fastener]") {
  holds_always("proof below yield below tensile", [] {
    const auto thread = *rc::gen::arbitrary<fastener::Thread>();
    const auto grade = static_cast<Grade>(*rc::gen::inRange(0, static_cast<int>(Grade::A4_80) + 1));
    RC_ASSERT(read_grade(fastener::name_of(grade)) == grade);
    if (const auto strength = strength_of(grade, thread)) {
      RC_ASSERT(fastener::proof_basis(*strength).stress < strength->yield);
      RC_ASSERT(strength->yield < strength->tensile);
      RC_ASSERT(fastener::load_at(strength->tensile, thread) > quantity::Force::newtons(0));
    }
  });
  holds_always("any bytes are a grade or nothing", [] {
    const auto text = *rc::gen::arbitrary<std::string>();
    if (const auto grade = read_grade(text)) {
      RC_ASSERT(read_grade(fastener::name_of(*grade)) == grade);
    }
  });
}

}  // namespace strength_test
