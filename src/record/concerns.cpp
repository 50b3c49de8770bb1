#include "record/concerns.h"

#include <algorithm>

namespace record {
namespace {

// A line about positions of a joint.
template <class Kind>
concept AboutPositions = requires(const Kind& content) {
  content.joint;
  content.positions;
};

// A line about one position of a joint.
template <class Kind>
concept AboutOnePosition = requires(const Kind& content, int position) {
  content.joint;
  position = content.position;
};

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
  template <class Other>
  bool operator()(const Other&) const {
    return false;
  }
};

std::string named_by(const Joint& joint) { return joint.code; }
std::string named_by(const CountedItem& item) { return item.before; }
template <class OfJoint>
requires requires(const OfJoint& content) { content.joint; }
std::string named_by(const OfJoint& content) { return content.joint; }
template <class OfNone>
std::string named_by(const OfNone&) {
  return {};
}

}  // namespace

bool concerns(const Content& content, const Address& address) {
  return std::visit(Concerns(address), content);
}

bool names_a_position(const Content& content) { return std::visit(NamesAPosition{}, content); }

std::string joint_named(const Content& content) {
  return std::visit([](const auto& kind) { return named_by(kind); }, content);
}

}  // namespace record
