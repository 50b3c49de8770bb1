#include "paper/sheet_page.h"

#include <fmt/format.h>

#include <map>
#include <set>

#include "finding/not_to_be_tested.h"
#include "paper/joint_facts.h"
#include "paper/mark_shape.h"
#include "paper/svg.h"
#include "record/address.h"
#include "record/removal.h"

namespace paper {
namespace {

constexpr int kPulls = 6;            // blanks for settings in a row
constexpr double kPullWidth = 13.0;  // millimetres
constexpr double kRowHeight = 10.2;
constexpr std::size_t kShortCode = 5;  // letters that fit above the positions
constexpr int kFew = 6;                // positions that are not parted between pages

std::string words_for_breaking_loose() {
  std::string words;
  for (const auto& word : record::Vocabulary<record::BreakLoose>::kWords) {
    words += fmt::format("{}{}", words.empty() ? "" : "  ", word.text);
  }
  return words;
}

void blank(Markup& page, std::string_view label) {
  page.text(label).text(" ").element("span", {{"class", "blank"}}, "").text("  ");
}

// What a row asks of a position.
struct Form {
  const finding::JointState& joint;
  std::set<int> untested;  // must not be put through a test

  [[nodiscard]] bool has_pulls() const { return untested.size() < joint.positions.size(); }
};

// Joint and headings, again on every page that the form goes on to.
void write_head_of_form(Markup& page, const Form& form) {
  const auto& code = form.joint.joint->code;
  const auto* number = form.joint.joint->count < 100 ? "13mm" : "15.5mm";
  std::vector<std::string> widths = {number, "12mm", form.has_pulls() ? "49mm" : "96mm"};
  for (int pull = 1; form.has_pulls() && pull <= kPulls; ++pull) {
    widths.push_back(fmt::format("{}mm", kPullWidth));
  }
  widths.emplace_back("auto");
  page.open("colgroup");
  for (const auto& width : widths) page.empty("col", {{"style", "width:" + width}});
  page.close().open("thead");
  const bool is_short = code.size() <= kShortCode;
  if (!is_short) {
    page.open("tr").element(
        "th", {{"scope", "colgroup"}, {"colspan", std::to_string(widths.size())}}, code);
    page.close();
  }
  page.open("tr").element("th", {{"scope", "col"}}, is_short ? code + "/" : "at");
  page.element("th", {{"scope", "col"}}, "mark");
  page.element("th", {{"scope", "col"}}, "broke loose (ring one)");
  if (form.has_pulls()) {
    page.element("th", {{"scope", "colgroup"}, {"colspan", std::to_string(kPulls)}},
                 fmt::format("pulls 1 to {}: setting; tick short, aligned, past", kPulls));
  }
  page.element("th", {{"scope", "col"}}, "bag, note");
  page.close().close();
}

// Room for the setting of every pull, and below it the three ways the line can stand, to tick. One
// drawing for all of them, so that a sheet stays small.
void draw_pulls(Markup& page) {
  constexpr double kMarks = 8.6;  // below the top of the row
  constexpr double kHalf = 1.7;
  constexpr double kOff = 1.1;
  constexpr double kHeight = kRowHeight - 0.4;
  page.open("svg", {{"role", "img"},
                    {"viewBox", fmt::format("0 0 {} {}", kPulls * kPullWidth, kHeight)},
                    {"width", in_drawing(kPulls * kPullWidth) + "mm"},
                    {"height", in_drawing(kHeight) + "mm"}});
  page.element("title",
               fmt::format("{} pulls: a setting, and line short, aligned or past", kPulls));
  std::string between;
  std::string marks;
  for (int pull = 0; pull < kPulls; ++pull) {
    const double left = pull * kPullWidth;
    if (pull > 0) between += fmt::format("M{} 0V{}", in_drawing(left), in_drawing(kHeight));
    for (const double shift : {-kOff, 0.0, kOff}) {
      const double x = left + kPullWidth / 2.0 + shift / kOff * 4.0;
      marks += fmt::format("M{} {}v{}M{} {}v{}", in_drawing(x + shift), in_drawing(kMarks - kHalf),
                           in_drawing(kHalf - 0.2), in_drawing(x), in_drawing(kMarks + 0.2),
                           in_drawing(kHalf - 0.2));
    }
  }
  page.empty("path", {{"class", "between"}, {"d", between}});
  page.empty("path", {{"class", "mark"}, {"d", marks}});
  page.close();
}

void write_form_row(Markup& page, const Form& form, int position) {
  page.open("tr");
  page.element("td", {{"class", "number"}}, std::to_string(position));
  page.open("td").element("span", {{"class", "box"}}, "").close();
  page.element("td", {{"class", "words"}}, words_for_breaking_loose());
  if (form.has_pulls()) {
    page.open("td", {{"class", "pulls"}, {"colspan", std::to_string(kPulls)}});
    if (form.untested.contains(position)) {
      page.text("do not test");
    } else {
      draw_pulls(page);
    }
    page.close();
  }
  page.element("td", "").close();
}

// How to fill a row in, with the three ways the line can stand; once for all joints.
void write_how_to(Markup& page) {
  page.open("div", {{"class", "caution"}});
  page.element("p",
               "Draw the mark before anything moves. Break loose with a bar, never with the torque "
               "wrench. Each pull: the setting as the wrench's own scale shows it, then a tick at "
               "how the line stood. Nothing moved: cross out all three. More pulls go on in the "
               "note.");
  open_drawing(page, 110.0, 5.0, "How the line stands after a pull");
  double x = 3.0;
  for (const auto mark : {record::Mark::Short, record::Mark::On, record::Mark::Past}) {
    draw_mark(page, x, 2.5, mark);
    draw_text(page, {x + 3.5, 2.5, 3.4, "start", "plain"}, line_word(mark));
    x += 35.0;
  }
  page.close().close();
}

// Said before anybody pulls: positions that must not be tested, by why. Returns them.
std::set<int> write_what_is_not_tested(Markup& page, const finding::JointState& joint) {
  std::map<std::string, std::vector<int>> by_reason;
  std::set<int> untested;
  for (const auto& position : joint.positions) {
    const auto why = finding::why_not_to_be_tested(joint, position.position);
    if (why.empty()) continue;
    by_reason[why].push_back(position.position);
    untested.insert(position.position);
  }
  for (const auto& [why, positions] : by_reason) {
    page.open("div", {{"class", "caution"}});
    page.element("p", {{"class", "torque"}},
                 positions.size() == joint.positions.size()
                     ? std::string("Do not test")
                     : "Do not test " + record::write_positions(positions));
    page.element(
        "p", fmt::format("{}/{} {}.", joint.joint->code, record::write_positions(positions), why));
    page.close();
  }
  return untested;
}

void write_joint(Markup& page, const finding::JointState& joint) {
  const auto& what = *joint.joint;
  page.open("section", {{"class", what.count <= kFew ? "joint whole" : "joint"}});
  write_joint_top(page, joint, {.datum_blank = true});
  const Form form{joint, write_what_is_not_tested(page, joint)};
  page.open("p", {{"class", "write"}});
  if (form.has_pulls()) blank(page, "wrench");
  blank(page, "by");
  blank(page, "day");
  blank(page, "machine's counter");
  page.close();
  page.open("div", {{"class", "wide sheet-form"},
                    {"role", "group"},
                    {"tabindex", "0"},
                    {"aria-label", "Teardown form of " + what.code}});
  page.open("table", {{"class", form.has_pulls() ? "form" : "form short"}});
  write_head_of_form(page, form);
  page.open("tbody");
  for (int position = 1; position <= what.count; ++position) write_form_row(page, form, position);
  page.close().close().close().close();
}

}  // namespace

std::string sheet_page(const std::vector<const finding::JointState*>& joints,
                       const Imprint& imprint) {
  Document document("teardown sheet", imprint);
  write_how_to(document.body());
  for (const auto* joint : joints) write_joint(document.body(), *joint);
  return document.take();
}

}  // namespace paper
