#include "paper/sheet_page.h"

#include <fmt/format.h>

#include "finding/not_to_be_tested.h"
#include "paper/joint_facts.h"
#include "paper/joint_map.h"
#include "record/address.h"
#include "record/removal.h"

namespace paper {
namespace {

constexpr int kPulls = 8;              // blanks for settings in a row
constexpr std::size_t kShortCode = 5;  // letters that fit above the positions
constexpr int kFew = 10;               // positions whose rows may be higher
constexpr MapRoom kSheetMapRoom{160.0,
                                54.0};  // so that sixteen positions stay on one page with the map

std::string words_for_breaking_loose() {
  std::string words;
  for (const auto& word : record::Vocabulary<record::BreakLoose>::kWords) {
    words += fmt::format("{}{}", words.empty() ? "" : " · ", word.text);
  }
  return words;
}

void blank(Markup& page, std::string_view label, bool is_long = false) {
  page.text(label);
  page.text(" ");
  page.element("span", {{"class", is_long ? "blank long" : "blank"}}, "");
  page.text("  ");
}

void write_head_of_form(Markup& page, const record::Joint& joint) {
  page.open("thead").open("tr");
  const auto column = [&](const std::string& width, std::string_view title) {
    page.element("th", {{"scope", "col"}, {"style", "width:" + width}}, title);
  };
  column("12mm", joint.code.size() <= kShortCode ? joint.code + "/" : "at");
  column("12mm", "mark drawn");
  column("34mm", "broke loose (ring one)");
  for (int pull = 1; pull <= kPulls; ++pull) column("12mm", fmt::format("pull {}", pull));
  column("auto", "bag, note");
  page.close().close();
}

void write_row(Markup& page, int position) {
  page.open("tr");
  page.element("td", {{"class", "number"}}, std::to_string(position));
  page.open("td").element("span", {{"class", "box"}}, "").close();
  page.element("td", {{"class", "words"}}, words_for_breaking_loose());
  for (int blanks = 0; blanks < kPulls + 1; ++blanks) page.element("td", "");
  page.close();
}

// Said before anybody pulls: positions that must not be tested, by why.
void write_what_is_not_tested(Markup& page, const finding::JointState& joint) {
  std::vector<int> all;
  for (const auto& position : joint.positions) all.push_back(position.position);
  for (const auto& warning : finding::warnings_before_test(joint, all)) {
    page.element("p", {{"class", "caution"}}, warning + ". Leave the pulls empty.");
  }
}

void write_joint(Markup& page, const finding::JointState& joint) {
  const auto& what = *joint.joint;
  page.open("section", {{"class", "sheet"}});
  write_joint_facts(page, joint);
  write_what_is_not_tested(page, joint);
  MapContent map;
  map.room = room_for(what, kSheetMapRoom);
  draw_map(page, what, map);
  page.open("p", {{"class", "write"}});
  blank(page, "wrench");
  blank(page, "by");
  blank(page, "day");
  blank(page, "machine's counter");
  page.close();
  page.open("div", {{"class", "wide"},
                    {"role", "group"},
                    {"tabindex", "0"},
                    {"aria-label", "Teardown form of " + what.code}});
  page.open("table", {{"class", what.count <= kFew ? "form roomy" : "form"}});
  page.element("caption",
               "A pull: the setting on the wrench's own scale, then where the line stood: s short, "
               "o aligned (on), p past, n no move. So 75s, 80o. More pulls go on in the note. "
               "Break loose with a bar, never with the torque wrench.");
  write_head_of_form(page, what);
  page.open("tbody");
  for (int position = 1; position <= what.count; ++position) write_row(page, position);
  page.close().close().close().close();
}

}  // namespace

std::string sheet_page(const std::vector<const finding::JointState*>& joints,
                       const Imprint& imprint) {
  Document document("teardown sheet", imprint);
  for (const auto* joint : joints) write_joint(document.body(), *joint);
  return document.take();
}

}  // namespace paper
