#include "record/concerns.h"

#include <algorithm>

namespace record {
namespace {

class Concerns {
 public:
  explicit Concerns(const Address& address) : address_(address) {}

  bool operator()(const LogbookStart&) const { return false; }
  bool operator()(const Wrench& wrench) const { return same(wrench.name); }
  bool operator()(const Joint& joint) const { return same(joint.code); }
  bool operator()(const Specified& specified) const {
    return specified.positions.empty() ? same(specified.joint)
                                       : at(specified.joint, specified.positions);
  }
  bool operator()(const Removal& removal) const { return at(removal.joint, removal.positions); }
  bool operator()(const Measured& measured) const {
    return at(measured.joint, {measured.position});
  }
  bool operator()(const FluidAmount&) const { return false; }
  bool operator()(const CountedItem& item) const { return same(item.code) || same(item.before); }
  bool operator()(const ItemReturn& back) const { return same(back.code); }
  bool operator()(const HoldPoint& point) const {
    return same(point.code) ||
           std::ranges::any_of(point.joints, [&](const std::string& joint) { return same(joint); });
  }
  bool operator()(const HoldPointStep& step) const { return same(step.code); }
  bool operator()(const Renewal& renewal) const { return at(renewal.joint, renewal.positions); }
  bool operator()(const Tightening& tightening) const {
    return at(tightening.joint, tightening.positions);
  }
  bool operator()(const FinalStripe& stripe) const { return at(stripe.joint, stripe.positions); }
  bool operator()(const Recheck& recheck) const { return at(recheck.joint, recheck.positions); }
  bool operator()(const Disposition& disposition) const {
    return disposition.position ? at(disposition.joint, {*disposition.position})
                                : same(disposition.joint);
  }
  bool operator()(const Strike&) const { return false; }  // it shows on the line that it struck

 private:
  [[nodiscard]] bool same(const std::string& code) const { return same_code(code, address_.joint); }
  [[nodiscard]] bool at(const std::string& joint, const std::vector<int>& positions) const {
    return same(joint) &&
           (address_.positions.empty() || std::ranges::any_of(positions, [&](int position) {
              return std::ranges::binary_search(address_.positions, position);
            }));
  }

  const Address& address_;
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

std::string joint_named(const Content& content) {
  return std::visit([](const auto& kind) { return named_by(kind); }, content);
}

}  // namespace record
