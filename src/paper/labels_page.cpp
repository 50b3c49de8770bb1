#include "paper/labels_page.h"

#include <fmt/format.h>

#include <algorithm>

#include "paper/qr_code.h"
#include "record/address.h"
#include "words/joint_heading.h"

namespace paper {
namespace {

constexpr double kCodeSize = 21.0;        // millimetres
constexpr std::size_t kLongAddress = 14;  // letters; more are set smaller
constexpr std::size_t kMostOfABag = 20;   // letters of a bag's name; a label is small
constexpr std::size_t kLongSize = 25;     // letters of size, length and grade; more are set smaller
constexpr std::size_t kMostOfASize = 42;  // letters of them that fit into one line
constexpr std::size_t kMostOfWords = 72;  // of what a joint holds, in three lines

struct Label {
  std::string bag;  // empty where none is known
  std::vector<int> positions;
};

// A hole that was found empty has nothing to put in a bag.
bool was_empty(const finding::PositionState& position) {
  return position.removal != nullptr &&
         position.removal->content.broke == record::BreakLoose::Empty;
}

// The positions by bag, in the order in which the bags come up.
std::vector<Label> by_bag(const finding::JointState& joint) {
  std::vector<Label> labels;
  for (const auto& position : joint.positions) {
    if (was_empty(position)) continue;
    const std::string bag = position.removal == nullptr ? "" : position.removal->content.bag;
    const auto same =
        std::ranges::find_if(labels, [&](const Label& label) { return label.bag == bag; });
    if (same == labels.end()) {
      labels.push_back({bag, {position.position}});
    } else {
      same->positions.push_back(position.position);
    }
  }
  return labels;
}

std::vector<Label> by_position(const finding::JointState& joint) {
  std::vector<Label> labels;
  for (const auto& position : joint.positions) {
    if (was_empty(position)) continue;
    labels.push_back(
        {position.removal == nullptr ? "" : position.removal->content.bag, {position.position}});
  }
  return labels;
}

// Cut where a character ends.
std::string shortened(const std::string& text, std::size_t most) {
  if (text.size() <= most) return text;
  auto end = most;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
  return text.substr(0, end) + "…";
}

void write_label(Markup& page, const record::Joint& joint, const Label& label) {
  const auto address = record::write_address(joint.code, label.positions);
  page.open("li");
  const bool has_code = draw_qr_code(page, address, kCodeSize);
  page.open("div", {{"class", "text"}});
  page.element("div", {{"class", address.size() > kLongAddress ? "address long" : "address"}},
               address);
  page.element(
      "div", {{"class", "bag"}},
      "bag " + (label.bag.empty() ? std::string("________") : shortened(label.bag, kMostOfABag)));
  page.element("div", fmt::format("{} of {}{}", label.positions.size(), joint.count,
                                  joint.one_time ? ", renew" : ""));
  if (!has_code) page.element("div", "no code: the address is too long for one");
  page.close().open("div", {{"class", "what"}});
  const auto size = shortened(words::fastener_text(joint), kMostOfASize);
  page.element("div", {{"class", size.size() > kLongSize ? "size long" : "size"}}, size);
  page.element("div", shortened(joint.holds, kMostOfWords));
  page.close().close();
}

}  // namespace

std::string labels_page(const std::vector<const finding::JointState*>& joints, LabelFor what,
                        const Imprint& imprint) {
  Document document("bag labels", imprint);
  auto& page = document.body();
  page.open("ul", {{"class", "labels"}});
  for (const auto* joint : joints) {
    for (const auto& label : what == LabelFor::Bag ? by_bag(*joint) : by_position(*joint)) {
      write_label(page, *joint->joint, label);
    }
  }
  page.close();
  return document.take();
}

}  // namespace paper
