#pragma once

#include <string>

#include "fastener/adapter.h"
#include "quantity/stated_torque.h"
#include "words/text.h"

namespace screen {

// What to set on a wrench with an adapter: the setting in the unit asked in and in the usual three,
// the formula with its numbers, and where it holds.
[[nodiscard]] std::string adapter_text(const quantity::StatedTorque& wanted,
                                       const fastener::Adapter& adapter, const words::Page& page);

// {"setting","setting_unit","setting_nm","torque_nm","torque_over_setting","length_mm",
// "extension_mm","angle_deg","formula","limits":[..]}
[[nodiscard]] std::string adapter_json(const quantity::StatedTorque& wanted,
                                       const fastener::Adapter& adapter);

}  // namespace screen
