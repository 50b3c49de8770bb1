#include "fastener/adapter.h"

#include <fmt/format.h>

#include <cmath>

#include "failure/failure.h"
#include "quantity/number_text.h"

namespace fastener {

using failure::InputError;
using quantity::write_rounded;

double torque_ratio(const Adapter& adapter) {
  constexpr double kLeastGain = 0.1;
  const double wrench = adapter.wrench_length.in_millimetres();
  const double length = adapter.adapter_length.in_millimetres();
  const double degrees = adapter.angle.in_degrees();
  if (wrench <= 0.0 || length < 0.0) {
    throw InputError(fmt::format(
        "a wrench of {} mm with an adapter of {} mm: expected a wrench length above zero, square "
        "drive to middle of the grip, and an adapter length of zero or more",
        write_rounded(wrench), write_rounded(length)));
  }
  if (std::fabs(degrees) > 180.0) {
    throw InputError(fmt::format(
        "an adapter at {}°: expected 0° (straight on) to 180° (folded back), either way",
        write_rounded(degrees)));
  }
  const double result = 1.0 + length / wrench * std::cos(adapter.angle.in_radians());
  if (result <= kLeastGain) {
    throw InputError(fmt::format(
        "an adapter of {} mm folded back on a wrench of {} mm puts the fastener under the hand; "
        "use a longer wrench or turn the adapter to 90°",
        write_rounded(length), write_rounded(wrench)));
  }
  return result;
}

quantity::Torque wrench_setting(quantity::Torque on_fastener, const Adapter& adapter) {
  return on_fastener / torque_ratio(adapter);
}

}  // namespace fastener
