#pragma once

#include <string>

#include "finding/survey.h"
#include "words/text.h"

namespace screen {

// The wrenches as they are on this day, by the order of their entry: scale, graduation, deviation
// and how long the calibration holds. Both lists are cut unless `whole`.
[[nodiscard]] std::string wrench_list_text(const record::Job& job, record::Day day, bool whole,
                                           const words::Page& page);
// {"wrenches":[{"name","kind","scale","graduation","deviation_percent","serial",
// "calibrated_until"|null,"in_calibration"|null}]}
[[nodiscard]] std::string wrench_list_json(const record::Job& job, record::Day day);

// The joints: what they hold, their fasteners, and how many of them are out and tested.
[[nodiscard]] std::string joint_list_text(const finding::Survey& survey, bool whole,
                                          const words::Page& page);
// {"joints":[{"joint","holds","fasteners","count","out","tested"}]}
[[nodiscard]] std::string joint_list_json(const finding::Survey& survey);

}  // namespace screen
