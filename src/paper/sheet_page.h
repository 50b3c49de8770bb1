#pragma once

#include <string>
#include <vector>

#include "finding/survey.h"
#include "paper/document.h"

namespace paper {

// Blank forms for the teardown, one joint a page: the map of its positions, and a row for each with
// what is asked in the order in which it is done, so that it can be typed in one to one.
[[nodiscard]] std::string sheet_page(const std::vector<const finding::JointState*>& joints,
                                     const Imprint& imprint);

}  // namespace paper
