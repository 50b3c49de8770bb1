#include <algorithm>
#include <string>
#include <vector>

#include "record/specification.h"
#include "support/catch.h"
#include "support/property.h"

namespace specification_property_test {

using quantity::Angle;
using record::AngleStep;
using record::LoosenStep;
using record::read_specification;
using record::RenewStep;
using record::Specification;
using record::TighteningStep;
using record::TorqueStep;
using record::TorqueTarget;
using Form = record::TorqueTarget::Form;

namespace {

// A number as manuals print it, or one with all its digits.
double arbitrary_value(int low, int high) {
  const int divisor = *rc::gen::element(1, 2, 4, 10, 100, 7, 1013);
  return *rc::gen::inRange(low * divisor, high * divisor + 1) / static_cast<double>(divisor);
}

// Each target lies above `floor`, so that steps rise.
TorqueTarget arbitrary_target(double floor, quantity::TorqueUnit unit) {
  TorqueTarget target;
  target.form = *rc::gen::element(Form::Nominal, Form::Percent, Form::PlusMinus, Form::Range,
                                  Form::Minimum, Form::Maximum);
  target.value = floor + arbitrary_value(1, 50);
  target.unit = unit;
  if (target.form == Form::Percent) target.spread = arbitrary_value(1, 99);
  if (target.form == Form::PlusMinus) target.spread = target.value / *rc::gen::inRange(2, 30);
  if (target.form == Form::Range) target.spread = target.value + arbitrary_value(1, 50);
  return target;
}

AngleStep arbitrary_angle_step() {
  AngleStep step{Angle::degrees(arbitrary_value(1, 360))};
  if (*rc::gen::arbitrary<bool>()) {
    step.window = {step.turn * 0.75, step.turn + Angle::degrees(arbitrary_value(1, 100))};
  }
  return step;
}

LoosenStep arbitrary_loosen_step() {
  if (*rc::gen::arbitrary<bool>()) return {};
  return {Angle::degrees(arbitrary_value(1, 1080))};
}

// Rising torques in one unit with the other kinds of step between, short enough to be written.
rc::Gen<Specification> specifications() {
  return rc::gen::exec([] {
    const auto unit = *rc::gen::elementOf(std::vector<quantity::TorqueUnit>(
        quantity::kTorqueUnits.begin(), quantity::kTorqueUnits.end()));
    Specification specification;
    TorqueTarget last = arbitrary_target(0.0, unit);
    specification.steps.emplace_back(TorqueStep{last});
    const int more = *rc::gen::inRange(0, 7);
    for (int i = 0; i < more; ++i) {
      switch (*rc::gen::inRange(0, 5)) {
        case 0:
          last = arbitrary_target(std::max(last.value, last.spread), unit);
          specification.steps.emplace_back(TorqueStep{last});
          break;
        case 1:
          specification.steps.emplace_back(TorqueStep{last, true});
          break;
        case 2:
          specification.steps.emplace_back(arbitrary_loosen_step());
          break;
        case 3:  // and any torque behind them, also a lower one
          last = arbitrary_target(0.0, unit);
          specification.steps.emplace_back(RenewStep{});
          specification.steps.emplace_back(TorqueStep{last});
          break;
        default:
          specification.steps.emplace_back(arbitrary_angle_step());
      }
    }
    return specification;
  });
}

std::string replace_all(std::string text, const std::string& what, const std::string& by) {
  for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size())) {
    text.replace(at, what.size(), by);
  }
  return text;
}

// The canonical text, spelled in one of the other ways in which it may be printed.
std::string spelled_otherwise(std::string text) {
  text = replace_all(text, "-",
                     *rc::gen::element<std::string>("-", " - ", "\u2013",
                                                    " to "));  // before other hyphens come in
  text =
      replace_all(text, ", ", *rc::gen::element<std::string>(", ", "; ", ";", " then ", ", Then "));
  text = replace_all(text, "±", *rc::gen::element<std::string>("±", "± ", "+/-", "+/- ", "+-"));
  text = replace_all(text, "°", *rc::gen::element<std::string>("°", " °", " deg", " Degrees"));
  text = replace_all(text, "min ", *rc::gen::element<std::string>("min ", "at least ", "MINIMUM "));
  text = replace_all(text, "·", *rc::gen::element<std::string>("·", "-", "*", " ", ""));
  return text;
}

}  // namespace

TEST_CASE("a written specification reads back the same", "[record]") {
  holds_always("read(write(x)) == x", [] {
    const auto specification = *specifications();
    const auto text = write_exact(specification);
    RC_PRE(text.size() <= 400U);
    RC_CLASSIFY(specification.steps.size() > 3U, "more than three steps");
    RC_LOG() << text;
    RC_ASSERT(read_specification(text) == specification);
  });
}

TEST_CASE("every spelling of a specification has one canonical form", "[record]") {
  holds_always("write(read(spelling)) == write(x)", [] {
    const auto text = write_exact(*specifications());
    const auto spelling = spelled_otherwise(text);
    RC_PRE(text.size() <= 400U && spelling.size() <= 400U);
    RC_LOG() << spelling;
    RC_ASSERT(write_exact(read_specification(spelling)) == text);
  });
}

TEST_CASE("no bytes make the specification reader do anything but read or refuse", "[record]") {
  const auto reads_or_refuses = [](const std::string& text) {
    try {
      const auto specification = read_specification(text);
      RC_ASSERT(read_specification(write_exact(specification)) == specification);
    } catch (const failure::InputError&) {
      RC_SUCCEED();
    }
  };
  holds_always("any bytes", reads_or_refuses);
  holds_always("any shuffle of the pieces of specifications", [&] {
    const auto pieces = *rc::gen::container<std::vector<std::string>>(rc::gen::element<std::string>(
        "80", " N·m", "60", "5", "%", "±", "+", "-", "/", ",", ", ", ";", " then ", "(", ")", "°",
        " turn", "min ", "max ", "loosen", "repeat ", "new bolts", " to ", "..", " ft-lb", " ",
        std::string(1, '\0'), "\xc2"));
    std::string text;
    for (const auto& piece : pieces) text += piece;
    reads_or_refuses(text);
  });
}

}  // namespace specification_property_test
