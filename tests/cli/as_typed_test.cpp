// What was typed, value and unit, prints back unchanged.

#include <nlohmann/json.hpp>
#include <vector>

#include "record/joint.h"
#include "record/removal.h"
#include "support/catch.h"
#include "support/property.h"
#include "support/trial.h"

namespace as_typed_test {

namespace {

class Typed {
 public:
  Typed() {
    trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
    trial.width = 10'000;  // no text is broken over two lines
    trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
  }

  // What history says of the last line, after this command.
  std::string last_line(const std::string& command) {
    trial.done(command);
    return trial.done("history --json").json()["lines"].back()["says"].get<std::string>();
  }

  Trial trial;
};

rc::Gen<std::string> number() {
  return rc::gen::map(rc::gen::tuple(rc::gen::inRange(21, 99), rc::gen::inRange(0, 99),
                                     rc::gen::element<std::string>("", ".", ",")),
                      [](const auto& parts) {
                        const auto& [whole, part, mark] = parts;
                        auto text = std::to_string(whole);
                        return mark.empty() ? text : text + mark + std::to_string(part);
                      });
}

rc::Gen<std::string> joined(rc::Gen<std::string> amount, std::vector<std::string> units) {
  return rc::gen::map(rc::gen::tuple(std::move(amount), rc::gen::element<std::string>("", " "),
                                     rc::gen::elementOf(std::move(units))),
                      [](const auto& parts) {
                        return std::get<0>(parts) + std::get<1>(parts) + std::get<2>(parts);
                      });
}

const std::vector<std::string> kTorqueUnits = {"Nm",     "N·m",    "N-m",   "ft-lb",
                                               "lbf·ft", "ft.lbs", "kgf·m", "foot-pounds"};

}  // namespace

TEST_CASE("a specification prints back as it was typed", "[cli]") {
  Typed typed;
  typed.trial.done("joint J01 --holds cap --size M24 --grade 10.9 --count 4");
  holds_always("history holds the specification to the letter", [&] {
    const auto text = *joined(number(), kTorqueUnits);
    const auto says = typed.last_line("joint J01 --really --spec '" + text + "'");
    RC_ASSERT(says.find("specified " + text + ",") != std::string::npos);
  });
}

TEST_CASE("lengths print back as they were typed", "[cli]") {
  Typed typed;
  int number_of_joint = 0;
  const std::vector<std::string> units = {"mm", "in", "cm", " inches"};
  holds_always("history holds the length to the letter", [&] {
    const auto text = *joined(number(), units);
    const auto code = "L" + std::to_string(++number_of_joint);
    const auto says = typed.last_line(
        "joint " + code + " --holds cap --size M12 --grade 8.8 --count 2 --length '" + text + "'");
    RC_ASSERT(says.find(" x " + text + ",") != std::string::npos);
    const auto other = *joined(number(), units);
    const auto out = typed.last_line("out " + code + "/1 --length '" + other + "'");
    RC_ASSERT(out.find("length " + other) != std::string::npos);
  });
}

TEST_CASE("a wrench prints back as it was typed", "[cli]") {
  Typed typed;
  int number_of_wrench = 0;
  holds_always("history holds range, graduation and accuracy to the letter", [&] {
    const auto unit = *rc::gen::elementOf(kTorqueUnits);
    const auto other_unit = *rc::gen::elementOf(kTorqueUnits);
    const auto dots = *rc::gen::element<std::string>("..", "-", " to ");
    const auto range = "10" + dots + "200 " + unit;
    const auto graduation = *rc::gen::element<std::string>("0.5 ", "1", "1,5 ") + other_unit;
    const auto accuracy = *rc::gen::element<std::string>("3%", "3 %", "2.50 %");
    const auto says =
        typed.last_line("wrench TW" + std::to_string(++number_of_wrench) + " --range '" + range +
                        "' --graduation '" + graduation + "' --accuracy '" + accuracy + "'");
    RC_ASSERT(says.find(", " + range + ",") != std::string::npos);
    RC_ASSERT(says.find("graduation " + graduation + ",") != std::string::npos);
    RC_ASSERT(says.find("accuracy " + accuracy + ";") != std::string::npos);
  });
}

TEST_CASE("readings with offsets in mm print back as they were typed", "[cli]") {
  Typed typed;
  typed.trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m'");
  typed.trial.done("joint J01 --holds cap --size M12 --grade 8.8 --count 4 --spec '80 Nm'");
  const auto says = typed.last_line(
      "found J01/1 '60 short 1.5mm' '70s 0,7 mm' 80on --wrench TW2 --radius 9.5mm "
      "--neighbours tight --extension 1.5in --wrench-length 14in");
  CHECK_THAT(says, ContainsSubstring("60 short 1.5mm 70s 0,7 mm 80on on TW2"));
  CHECK_THAT(says, ContainsSubstring("marks at 9.5mm"));
  CHECK_THAT(says, ContainsSubstring("through extension 1.5in at 0° on a wrench of 14in"));
  CHECK_THAT(says, ContainsSubstring("neighbours tight"));
}

TEST_CASE("the settings of a logbook print back as they were typed", "[cli]") {
  Trial trial;
  const auto path = trial.folder().file("two.bolts");
  trial.done("start " + path + " --machine GB-1 --tolerance '7,50 %' --method-error 1.0%");
  const auto says = trial.done("history --log " + path + " --json").json();
  const auto first = says["lines"][0]["says"].get<std::string>();
  CHECK_THAT(first, ContainsSubstring("tolerance 7,50 %"));
  CHECK_THAT(first, ContainsSubstring("method error 1.0%"));
}

TEST_CASE("a length that an earlier version kept in mm alone prints without its last digits",
          "[cli]") {
  record::Joint joint;
  joint.length = quantity::Length::millimetres(3.5 * 25.4);  // 88.89999999999999
  CHECK(record::length_text(joint) == "88.9 mm");
  record::Removal removal;
  removal.other_length = quantity::Length::millimetres(3.0 * 25.4);
  CHECK(record::other_length_text(removal) == "76.2 mm");
}

}  // namespace as_typed_test
