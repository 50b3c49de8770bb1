#include "record/concerns.h"

#include <algorithm>

namespace record {
namespace {

template <class Kind>
concept AboutNoJoint =
    OneOf<Kind, LogbookStart, Wrench, FluidAmount, ItemReturn, HoldPoint, HoldPointStep, Strike>;

class Concerns {
 public:
  explicit Concerns(const Address& address) : address_(address) {}

  template <AboutPositions Kind>
  bool operator()(const Kind& content) const {
    return same(content.joint) && any_named(content.positions);
  }
  bool operator()(const Specified& specified) const {
    return same(specified.joint) && (specified.positions.empty() || any_named(specified.positions));
  }
  bool operator()(const Photograph& photograph) const {
    return same(photograph.joint) &&
           (photograph.positions.empty() || any_named(photograph.positions));
  }
  template <AboutOnePosition Kind>
  bool operator()(const Kind& content) const {
    return same(content.joint) && any_named({content.position});
  }
  bool operator()(const Disposition& disposition) const {
    const auto positions = positions_of(disposition);
    return same(disposition.joint) && (positions.empty() || any_named(positions));
  }
  bool operator()(const Joint& joint) const { return same(joint.code); }
  bool operator()(const Wrench& wrench) const { return same(wrench.name); }
  bool operator()(const CountedItem& item) const { return same(item.code) || same(item.before); }
  bool operator()(const ItemReturn& back) const { return same(back.code); }
  bool operator()(const HoldPoint& point) const {
    return same(point.code) ||
           std::ranges::any_of(point.joints, [&](const std::string& joint) { return same(joint); });
  }
  bool operator()(const HoldPointStep& step) const { return same(step.code); }
  bool operator()(const LogbookStart&) const { return false; }
  bool operator()(const FluidAmount&) const { return false; }
  bool operator()(const Strike&) const { return false; }  // it shows on the line that it struck

 private:
  [[nodiscard]] bool same(const std::string& code) const { return same_code(code, address_.joint); }
  [[nodiscard]] bool any_named(const std::vector<int>& positions) const {
    return address_.positions.empty() || std::ranges::any_of(positions, [&](int position) {
             return std::ranges::binary_search(address_.positions, position);
           });
  }

  const Address& address_;
};

struct NamesAPosition {
  template <AboutPositions Kind>
  bool operator()(const Kind& content) const {
    return !content.positions.empty();
  }
  template <AboutOnePosition Kind>
  bool operator()(const Kind&) const {
    return true;
  }
  bool operator()(const Disposition& disposition) const {
    return !positions_of(disposition).empty();
  }
  template <AboutNoPosition Kind>
  bool operator()(const Kind&) const {
    return false;
  }
};

// The highest position that a line names; 0 where it names none.
struct HighestPosition {
  template <AboutPositions Kind>
  int operator()(const Kind& content) const {
    return content.positions.empty() ? 0 : *std::ranges::max_element(content.positions);
  }
  template <AboutOnePosition Kind>
  int operator()(const Kind& content) const {
    return content.position;
  }
  int operator()(const Disposition& disposition) const {
    const auto positions = positions_of(disposition);
    return positions.empty() ? 0 : positions.back();
  }
  template <AboutNoPosition Kind>
  int operator()(const Kind&) const {
    return 0;
  }
};

std::string named_by(const Joint& joint) { return joint.code; }
std::string named_by(const CountedItem& item) { return item.before; }
template <class OfJoint>
requires requires(const OfJoint& content) { content.joint; }
std::string named_by(const OfJoint& content) { return content.joint; }
template <AboutNoJoint Kind>
std::string named_by(const Kind&) {
  return {};
}

}  // namespace

bool concerns(const Content& content, const Address& address) {
  return std::visit(Concerns(address), content);
}

bool names_a_position(const Content& content) { return std::visit(NamesAPosition{}, content); }

bool stands_beyond(const Content& content, std::string_view joint, int count) {
  return std::visit(HighestPosition{}, content) > count && same_code(joint_named(content), joint);
}

std::string joint_named(const Content& content) {
  return std::visit([](const auto& kind) { return named_by(kind); }, content);
}

}  // namespace record
