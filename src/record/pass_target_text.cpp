#include "record/pass_target_text.h"

#include "quantity/angle_text.h"
#include "quantity/number_text.h"
#include "quantity/stated_torque.h"

namespace record {
namespace {

using failure::InputError;

bool may_have_torque(PassKind kind) { return kind == PassKind::Torque || kind == PassKind::Check; }

bool may_have_angle(PassKind kind) { return kind == PassKind::Angle || kind == PassKind::Loosen; }

}  // namespace

PassTarget read_pass_target(std::string_view text) {
  const auto whole = quantity::trimmed(text);
  const auto word = whole.substr(0, whole.find(' '));
  const auto amount = quantity::trimmed(whole.substr(word.size()));
  PassTarget target{read_word<PassKind>(word), std::nullopt, std::nullopt};
  if (target.kind == PassKind::Angle && amount.empty()) {
    throw InputError("angle: expected how far to turn behind it, such as angle 60°");
  }
  if (amount.empty()) return target;
  if (may_have_torque(target.kind)) {
    const auto torque = quantity::read_torque(amount).torque();
    if (torque <= quantity::Torque::newton_metres(0.0)) {
      throw InputError(fmt::format("{}: expected a torque above zero", quantity::quoted(text)));
    }
    target.torque = torque;
  } else if (may_have_angle(target.kind)) {
    target.angle = quantity::read_angle(amount);
  } else {
    throw InputError(fmt::format("{}: expected nothing behind {}", quantity::quoted(text), word));
  }
  return target;
}

std::string write_exact(const PassTarget& target) {
  std::string text(word_of(target.kind));
  if (target.torque) {
    text += " " + quantity::write_exact(quantity::StatedTorque{target.torque->in_newton_metres(),
                                                               quantity::TorqueUnit::NewtonMetre});
  }
  if (target.angle) text += " " + quantity::write_exact(*target.angle);
  return text;
}

}  // namespace record
