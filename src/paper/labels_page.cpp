#include "paper/labels_page.h"

#include <fmt/format.h>

#include <algorithm>

#include "paper/qr_code.h"
#include "record/address.h"
#include "words/joint_heading.h"

namespace paper {
namespace {

constexpr double kCodeSize = 21.0;       // millimetres
constexpr std::size_t kLongAddress = 9;  // letters; more are set smaller
constexpr std::size_t kLongBag = 24;     // letters of a bag's name; more are set smaller
constexpr std::size_t kLongSize = 24;    // letters of size, length and grade; more are set smaller
constexpr std::size_t kLongHolds = 62;   // letters in two lines; more are set smaller
constexpr std::size_t kLongestAddress = 20;
constexpr std::size_t kLongMachine = 66;  // letters in two lines; more are set smaller

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

// How much of the joint is in the bag, or which of its positions this is.
std::string count_text(const record::Joint& joint, const Label& label, LabelFor what) {
  return fmt::format(
      "{} of {}{}",
      what == LabelFor::Bag ? static_cast<int>(label.positions.size()) : label.positions.front(),
      joint.count, joint.one_time ? ", renew" : "");
}

// Behind the number sign, which a browser keeps to itself.
std::string code_on_label(const std::string& address, const std::string& link) {
  if (link.empty()) return address;
  return link + (link.ends_with('/') ? "" : "/") + "#at=" + address;
}

// All of it is written out: what is long is set smaller, and what is longer still makes its label
// higher.
void write_label(Markup& page, const record::Joint& joint, const Label& label, LabelFor what,
                 const std::string& machine, const std::string& link) {
  const auto address = record::write_address(joint.code, label.positions);
  page.open("li");
  const bool has_code = draw_qr_code(page, code_on_label(address, link), kCodeSize);
  page.open("div", {{"class", "text"}});
  page.element("div",
               {{"class", address.size() > kLongestAddress ? "address longest"
                          : address.size() > kLongAddress  ? "address long"
                                                           : "address"}},
               address);
  page.element("div", {{"class", "count"}}, count_text(joint, label, what));
  page.element("div", {{"class", label.bag.size() > kLongBag ? "bag long" : "bag"}},
               "bag " + (label.bag.empty() ? std::string("________") : label.bag));
  if (!has_code) page.element("div", "no code: the address is too long for one");
  page.close().open("div", {{"class", "what"}});
  const auto size = words::fastener_text(joint);
  page.element("div", {{"class", size.size() > kLongSize ? "size long" : "size"}}, size);
  page.element("div", {{"class", joint.holds.size() > kLongHolds ? "holds long" : "holds"}},
               joint.holds);
  page.element("div", {{"class", machine.size() > kLongMachine ? "machine long" : "machine"}},
               machine);
  page.close().close();
}

}  // namespace

std::string labels_page(const std::vector<const finding::JointState*>& joints, LabelFor what,
                        const Imprint& imprint, const std::string& link) {
  Document document("bag labels", imprint);
  auto& page = document.body();
  page.open("ul", {{"class", "labels"}});
  for (const auto* joint : joints) {
    for (const auto& label : what == LabelFor::Bag ? by_bag(*joint) : by_position(*joint)) {
      write_label(page, *joint->joint, label, what, imprint.machine, link);
    }
  }
  page.close();
  return document.take();
}

}  // namespace paper
