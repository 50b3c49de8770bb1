#pragma once

#include <string>

#include "finding/next_setting.h"
#include "words/text.h"

namespace screen {

// "next 75 N·m: ..." or "stop: ..."; the setting on the wrench's own scale.
[[nodiscard]] std::string next_setting_text(const finding::Proposal& proposal,
                                            quantity::TorqueUnit scale, const words::Page& page);

// {"next_setting", "unit", "reason"}: the setting is null where no further pull is proposed.
[[nodiscard]] std::string next_setting_json(const finding::Proposal& proposal,
                                            quantity::TorqueUnit scale);

}  // namespace screen
