#include "record/content_check.h"

#include "failure/failure.h"
#include "support/catch.h"

namespace content_check_test {

namespace {

record::Joint cover() {
  record::Joint joint;
  joint.code = "J06";
  joint.holds = "cover";
  joint.size = "M10x1.5";
  joint.grade = "8.8";
  joint.count = 4;
  return joint;
}

}  // namespace

TEST_CASE("a joint that names what there is not is refused with what it is", "[record]") {
  using Change = void (*)(record::Joint&);
  const auto [what, change] = GENERATE(table<std::string, Change>(
      {{"size", [](record::Joint& joint) { joint.size = "banana"; }},
       {"size", [](record::Joint& joint) { joint.size.clear(); }},
       {"layout",
        [](record::Joint& joint) {
          joint.layout = record::RectangleLayout{2, 7};
        }},
       {"order", [](record::Joint& joint) { joint.order = "spiral"; }},
       {"order", [](record::Joint& joint) { joint.order = "1,2"; }},
       {"order", [](record::Joint& joint) { joint.order = "army-circular"; }},
       {"passes", [](record::Joint& joint) { joint.passes = "seventeen"; }},
       {"into", [](record::Joint& joint) { joint.into = "cheese"; }},
       {"seat", [](record::Joint& joint) { joint.seat = "cheese"; }},
       {"face", [](record::Joint& joint) {
          joint.seat = "S235";
          joint.face = quantity::Length::millimetres(9);  // the medium hole of ISO 273 is 11 mm
        }}}));
  CAPTURE(what);
  CHECK_NOTHROW(record::check_content(cover()));
  auto joint = cover();
  change(joint);
  CHECK_THROWS_AS(record::check_content(joint), failure::InputError);
  CHECK_THROWS_WITH(record::check_content(joint), ContainsSubstring(what + ": "));
}

TEST_CASE("what nobody can know the strength of is no fault of a joint", "[record]") {
  auto joint = cover();
  joint.grade = "unknown";
  joint.order = "1,3,2,4";
  joint.passes = "three-rounds";
  joint.into = "EN AC-46000";
  joint.seat = "S235";
  joint.face = quantity::Length::millimetres(16);
  CHECK_NOTHROW(record::check_content(joint));
}

TEST_CASE("a fastener of another size is of one that there is", "[record]") {
  record::Removal removal;
  CHECK_NOTHROW(record::check_content(removal));
  removal.other_size = "M12x1.75";
  CHECK_NOTHROW(record::check_content(removal));
  removal.other_size = "banana";
  CHECK_THROWS_WITH(record::check_content(removal), ContainsSubstring("other size: "));
}

}  // namespace content_check_test
