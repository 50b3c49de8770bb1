#pragma once

#include <string>
#include <vector>

#include "finding/survey.h"
#include "paper/document.h"

namespace paper {

// Blank forms for the teardown, joint by joint, small ones sharing a page: the map of its positions
// with room for the datum, and a row for each position with what is asked in the order in which it
// is done, so that it can be typed in one to one. A position that must not be tested has no pulls.
[[nodiscard]] std::string sheet_page(const std::vector<const finding::JointState*>& joints,
                                     const Imprint& imprint);

}  // namespace paper
