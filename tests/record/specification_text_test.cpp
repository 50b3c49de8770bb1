#include <string>
#include <vector>

#include "quantity/number_text.h"
#include "record/specification.h"
#include "support/catch.h"
#include "support/refusal.h"

namespace specification_text_test {

using record::read_specification;
using namespace std::string_view_literals;

namespace {

struct Spelling {
  std::string typed;
  std::string canonical;
};

// Both the spelling and its canonical form read as the same specification, written one way.
void check_spellings(const std::vector<Spelling>& spellings) {
  for (const auto& [typed, canonical] : spellings) {
    INFO(typed);
    const auto specification = read_specification(typed);
    CHECK(write_exact(specification) == canonical);
    CHECK(read_specification(canonical) == specification);
  }
}

std::string refusal(std::string_view text) {
  return refusal_of([&] { return read_specification(text); });
}

struct Refusal {
  std::string typed;
  std::string reason;
};

void check_refusals(const std::vector<Refusal>& refusals) {
  for (const auto& [typed, reason] : refusals) {
    INFO(typed);
    CHECK_THAT(refusal(typed), ContainsSubstring(reason));
  }
}

}  // namespace

TEST_CASE("a torque is read with whatever tolerance is printed", "[record]") {
  check_spellings({
      {"80 N·m", "80 N·m"},
      {"80Nm", "80 N·m"},
      {"160 in·lbf", "160 in·lbf"},
      {"59 ft-lb", "59 ft·lbf"},
      {"3,5 N·m", "3.5 N·m"},
      {"80 N·m ±5%", "80 N·m ±5%"},
      {"80 N·m ± 5 %", "80 N·m ±5%"},
      {"80 N·m±5%", "80 N·m ±5%"},
      {"80 N·m +/-5%", "80 N·m ±5%"},
      {"80 N·m +- 5%", "80 N·m ±5%"},
      {"80 ±5% N·m", "80 N·m ±5%"},
      {"3,5 N·m ±2,5%", "3.5 N·m ±2.5%"},
      {"95 ±5 N·m", "95 ±5 N·m"},
      {"95±5Nm", "95 ±5 N·m"},
      {"95 +/- 5 N·m", "95 ±5 N·m"},
      {"95 N·m ±5 N·m", "95 ±5 N·m"},
      {"95 N·m ±5", "95 ±5 N·m"},
      {"95 Nm ±5 newton-metres", "95 ±5 N·m"},
  });
}

TEST_CASE("a range is read with any dash, dots or \"to\"", "[record]") {
  check_spellings({
      {"90-100 N·m", "90-100 N·m"},
      {"90 - 100 N·m", "90-100 N·m"},
      {"90\u2013100 N·m", "90-100 N·m"},
      {"90 \u2014 100 N·m", "90-100 N·m"},
      {"90\u2212100 N·m", "90-100 N·m"},
      {"90..100 N·m", "90-100 N·m"},
      {"90...100 N·m", "90-100 N·m"},
      {"90\u2026100 N·m", "90-100 N·m"},
      {"90 to 100 N·m", "90-100 N·m"},
      {"90 TO 100 N·m", "90-100 N·m"},
      {"90 N·m - 100 N·m", "90-100 N·m"},
      {"90 N-m to 100 N-m", "90-100 N·m"},
      {"9,5-10,5 N·m", "9.5-10.5 N·m"},
      {"65-70 ft-lb", "65-70 ft·lbf"},
  });
}

TEST_CASE("a one-sided torque is read with the word before or behind", "[record]") {
  check_spellings({
      {"min 90 N·m", "min 90 N·m"},
      {"min. 90 N·m", "min 90 N·m"},
      {"Minimum 90 N·m", "min 90 N·m"},
      {"at least 90 N·m", "min 90 N·m"},
      {"≥ 90 N·m", "min 90 N·m"},
      {"90 N·m min.", "min 90 N·m"},
      {"90 N·m minimum", "min 90 N·m"},
      {"min .5 N·m", "min 0.5 N·m"},
      {"min.5 N·m", "min 0.5 N·m"},
      {"max 12 N·m", "max 12 N·m"},
      {"MAX12N·m", "max 12 N·m"},
      {"at most 12 N·m", "max 12 N·m"},
      {"up to 12 N·m", "max 12 N·m"},
      {"≤12 N·m", "max 12 N·m"},
      {"12 N·m max", "max 12 N·m"},
  });
}

TEST_CASE("steps are parted by commas, semicolons and then", "[record]") {
  check_spellings({
      {"40 N·m, 60 N·m, 80 N·m", "40 N·m, 60 N·m, 80 N·m"},
      {"40 N·m,60 N·m", "40 N·m, 60 N·m"},
      {"40 N·m; 60 N·m;80 N·m", "40 N·m, 60 N·m, 80 N·m"},
      {"40 N·m then 60 N·m", "40 N·m, 60 N·m"},
      {"40 N·m, then 60 N·m; Then 80 N·m", "40 N·m, 60 N·m, 80 N·m"},
      {"3,5 N·m, 4,2 N·m", "3.5 N·m, 4.2 N·m"},
      {"3,5 N·m,4,2 N·m", "3.5 N·m, 4.2 N·m"},
      {"40,60 N·m", "40.6 N·m"},  // between two digits it is a decimal comma, never a new step
      {"30 ft·lbf, 80 N·m", "30 ft·lbf, 80 N·m"},
      {"20 N·m, 40 N·m ±5%, 90-100 N·m", "20 N·m, 40 N·m ±5%, 90-100 N·m"},
  });
}

TEST_CASE("angles are read in degrees and turns, with their window", "[record]") {
  check_spellings({
      {"60 N·m, +60°", "60 N·m, +60°"},
      {"60 N·m, 60°", "60 N·m, +60°"},
      {"60 N·m, + 60 deg", "60 N·m, +60°"},
      {"60 N·m + 90°", "60 N·m, +90°"},
      {"60 N·m +90° +90°", "60 N·m, +90°, +90°"},
      {"60 N·m+90°", "60 N·m, +90°"},
      {"60 N·m then +90°", "60 N·m, +90°"},
      {"60 N·m, then + 90°", "60 N·m, +90°"},
      {"40 N·m, +1/4 turn", "40 N·m, +90°"},
      {"40 N·m, 1/2 turn", "40 N·m, +180°"},
      {"40 N·m, +90°, +90°", "40 N·m, +90°, +90°"},
      {"60 N·m, +60° (55-65)", "60 N·m, +60° (55-65)"},
      {"60 N·m, +60°(55°\u201365°)", "60 N·m, +60° (55-65)"},
      {"60 N·m, +60° (55 to 65 deg)", "60 N·m, +60° (55-65)"},
      {"60 N·m, +60° (57,5..62,5)", "60 N·m, +60° (57.5-62.5)"},
      {"60 N·m, +60° ±5°", "60 N·m, +60° (55-65)"},
      {"60 N·m +60° +/-5°", "60 N·m, +60° (55-65)"},
      {"60 N·m, +60° (±5 deg)", "60 N·m, +60° (55-65)"},
      {"60 N·m, +1/4 turn (80-100)", "60 N·m, +90° (80-100)"},
      {"60 N·m ±5% + 60° ±5°", "60 N·m ±5%, +60° (55-65)"},
      {"61 N·m, +90°, min 122 N·m", "61 N·m, +90°, min 122 N·m"},
      {"61 N·m, +1080°", "61 N·m, +1080°"},
  });
}

TEST_CASE("loosening and repeating are steps", "[record]") {
  check_spellings({
      {"40 N·m, loosen, 40 N·m, +90°", "40 N·m, loosen, 40 N·m, +90°"},
      {"40 N·m, Loosen 360°, 30 N·m", "40 N·m, loosen 360°, 30 N·m"},
      {"40 N·m, loosen by 1/6 turn", "40 N·m, loosen 60°"},
      {"80 N·m, repeat 80 N·m", "80 N·m, repeat 80 N·m"},
      {"40 N·m, 80 N·m, REPEAT 80 Nm", "40 N·m, 80 N·m, repeat 80 N·m"},
      {"90-100 N·m, repeat 90-100 N·m", "90-100 N·m, repeat 90-100 N·m"},
      {"80 N·m, repeat 80 N·m ±5%", "80 N·m, repeat 80 N·m ±5%"},
  });
}

TEST_CASE("new bolts are a step, with a torque behind them", "[record]") {
  check_spellings({
      {"50 N·m, new bolts, 40 N·m, +90°", "50 N·m, new bolts, 40 N·m, +90°"},
      {"50 N·m, fit new bolts, 50 N·m", "50 N·m, new bolts, 50 N·m"},
      {"50 N·m; renew; 50 N·m", "50 N·m, new bolts, 50 N·m"},
      {"50 N·m then renew screws then 50 N·m", "50 N·m, new bolts, 50 N·m"},
      {"50 N·m, loosen, Fit New Fasteners, repeat 50 N·m",
       "50 N·m, loosen, new bolts, repeat 50 N·m"},
  });
  check_refusals({
      {"new bolts, 50 N·m", "expected a torque first"},
      {"50 N·m, new bolts", "expected a torque behind \"new bolts\""},
      {"50 N·m, new bolts, +90°", "step 3: expected a torque behind"},
      {"50 N·m, new, 50 N·m", "step 2: \"new\": expected \"new bolts\""},
      {"50 N·m, new bolts twice, 50 N·m", "nothing behind it"},
      {"50 N·m, fit 60 N·m", "step 2"},
  });
}

TEST_CASE("a repeat keeps the tolerance of the step it repeats", "[record]") {
  check_spellings({
      {"80 N·m ±5%, repeat 80 N·m", "80 N·m ±5%, repeat 80 N·m ±5%"},
      {"80 ±4 N·m, repeat 80 N·m, repeat 80 N·m", "80 ±4 N·m, repeat 80 ±4 N·m, repeat 80 ±4 N·m"},
  });
}

TEST_CASE("a torque without a unit is refused, with the step and the units named", "[record]") {
  for (const auto* text : {"80", "80 ±5%", "95 ±5", "90-100", "min 90", "12 max"}) {
    INFO(text);
    CHECK_THAT(refusal(text), ContainsSubstring("no unit"));
    CHECK_THAT(refusal(text), ContainsSubstring(quantity::accepted_torque_units()));
  }
  const auto message = refusal("40, 60, 80 N·m");
  CHECK_THAT(message, ContainsSubstring("step 1: \"40\" has no unit"));
  CHECK_THAT(refusal("40 N·m, 60; 80 N·m"), ContainsSubstring("step 2: \"60\" has no unit"));
  CHECK_THAT(refusal("40 N·m, 60 N·m, repeat 60"), ContainsSubstring("step 3: \"60\" has no unit"));
}

TEST_CASE("a torque that cannot be meant is refused", "[record]") {
  check_refusals({
      {"0 N·m", "above zero"},
      {"-80 N·m", "minus sign"},
      {"nan N·m", "expected a number first"},
      {"80 bar", "\"bar\" is not known"},
      {"80 N·m ±0%", "above 0% and below 100%"},
      {"80 N·m ±100%", "above 0% and below 100%"},
      {"80 N·m ±-5%", "minus sign"},
      {"95 ±0 N·m", "smaller than the torque"},
      {"95 ±95 N·m", "smaller than the torque"},
      {"95 N·m ±5 ft·lbf", "two units"},
      {"90 N·m - 100 ft·lbf", "two units"},
      {"100-90 N·m", "lower end of the range first"},
      {"90-90 N·m", "lower end of the range first"},
      {"80 N·m ±5% ±3%", "not known"},
      {"min 90 N·m ±5%", "no tolerance"},
      {"max 90-100 N·m", "no tolerance"},
      {"80 N·m (59 ft·lbf)", "without brackets"},
      {"1,234 N·m", "thousands"},
      {"90 100 N·m", "thousands"},
      {"90--100 N·m", "not known"},
  });
}

TEST_CASE("an angle that cannot be meant is refused", "[record]") {
  check_refusals({
      {"60 N·m, +60", "behind the plus"},
      {"60 N·m + 20 N·m", "step 2: \"+ 20 N·m\": expected an angle"},
      {"60 N·m +5 -0", "behind the plus"},
      {"60 N·m, +0°", "above 0 and at most 1080°"},
      {"60 N·m, +1080.5°", "above 0 and at most 1080°"},
      {"60 N·m, +1/0 turn", "over zero"},
      {"60 N·m, +60° (65-70)", "outside its window"},
      {"60 N·m, +60° (50-55)", "outside its window"},
      {"60 N·m, +60° (65-55)", "outside its window"},
      {"60 N·m, +60° (60-60)", "outside its window"},
      {"60 N·m, +60° (0-65)", "above 0"},
      {"60 N·m, +1000° ±100°", "at most 1080°"},
      {"60 N·m, +60° (55)", "window as (55-65)"},
      {"60 N·m, +60° (55-65", "window as (55-65)"},
      {"60 N·m, +60° (55-65-70)", "window as (55-65)"},
      {"60 N·m, +60° 55-65", "window as (55-65)"},
      {"60 N·m, +60° ±60°", "smaller than the angle"},
      {"60 N·m, +60° ±0°", "smaller than the angle"},
      {"60 N·m, +60° ±5", "expected an angle"},
      {"60 N·m, loosen 0°", "above 0 and at most 1080°"},
      {"60 N·m, loosen 1081°", "above 0 and at most 1080°"},
      {"60 N·m, loosen 90", "expected an angle"},
  });
}

TEST_CASE("steps that make no procedure are refused", "[record]") {
  check_refusals({
      {"", "no specification"},
      {" \t ", "no specification"},
      {"+90°", "expected a torque first"},
      {"loosen, 40 N·m", "step 1: expected a torque first"},
      {"repeat 80 N·m", "expected a torque first"},
      {"40 N·m,, 60 N·m", "step 2: nothing between"},
      {"40 N·m,", "step 2: nothing between"},
      {"then 40 N·m", "step 1: nothing between"},
      {"40 N·m then", "step 2: nothing between"},
      {"80 N·m, repeat 60 N·m", "no step before it has this torque"},
      {"80 N·m, repeat 80 ft·lbf", "no step before it has this torque"},
      {"90-100 N·m, repeat 95 N·m", "no step before it has this torque"},
      {"80 N·m, repeat", "step 2"},
      {"80 N·m, 60 N·m", "step 2: 60 N·m is lower than 80 N·m"},
      {"80 N·m, 59 ft·lbf", "only converts the other"},
      {"90-100 N·m, 92 N·m", "lower than 90-100 N·m"},
      {"40 N·m, 80 N·m, repeat 40 N·m", "would do nothing"},
      {"40 N·m, gently", "step 2"},
  });
  CHECK_FALSE(read_specification("80 N·m, loosen, 60 N·m").steps.empty());
  CHECK_FALSE(read_specification("80 N·m, +90°, 60 N·m").steps.empty());
}

TEST_CASE("a specification has at most 20 steps and 400 bytes", "[record]") {
  const auto steps = [](int count) {
    std::string text = "1Nm";
    for (int i = 1; i < count; ++i) text += ",1Nm";
    return text;
  };
  CHECK(read_specification(steps(20)).steps.size() == 20);
  CHECK_THAT(refusal(steps(21)), ContainsSubstring("21 steps"));
  CHECK(read_specification("80 N·m" + std::string(393, ' ')).steps.size() == 1);
  CHECK_THAT(refusal("80 N·m" + std::string(394, ' ')), ContainsSubstring("401 bytes"));
  // Short as typed, too long once written: each 1/7 turn is +51.42857142857143°.
  std::string sevenths = "1Nm";
  for (int i = 1; i < 20; ++i) sevenths += "+1/7turn";
  CHECK_THAT(refusal(sevenths), ContainsSubstring("expected at most 400"));
}

TEST_CASE("hostile bytes are refused", "[record]") {
  for (const auto text : {"80 N·m\0"sv, "80\0N·m"sv, "\0"sv, "80 N·m, \xff"sv, "80 N·m; +90\xc2"sv,
                          "\xb1"sv, "80 N·m ±"sv, "(((("sv, "+"sv, "80 N·m +"sv, ","sv, ";;;"sv,
                          "80 N·m, loosen\0"sv, "min"sv, "to 5 N·m"sv, "1e400 N·m"sv}) {
    INFO(quantity::quoted(text));
    CHECK_FALSE(refusal(text).empty());
  }
}

}  // namespace specification_text_test
