#pragma once

#include <string>
#include <vector>

#include "finding/drift.h"
#include "words/text.h"

namespace screen {

// The two teardowns that are held against each other, and which joints are shown.
struct DriftPage {
  const finding::Drift& drift;
  const record::LogbookStart& here;
  const record::LogbookStart& there;
  std::vector<std::string> joints;  // codes; all where empty
};

// One row a position that was found in both, joint by joint with the median of the ratios; what
// differs between the joints; then the control band and what it was made of.
[[nodiscard]] std::string drift_text(const DriftPage& page_of, const words::Page& page);

// {"machine","other_machine","rows":[{"joint","position","this_nm","other_nm","ratio","outside",
// "e_n","changed"}],"joints":[{"joint","median"|null,"of","differs":[..],"in_one":[..]}],"band":{"centre","low",
// "high","mean_moving_range","of"}|null,"only_here":[..],"only_there":[..]}
[[nodiscard]] std::string drift_json(const DriftPage& page_of);

}  // namespace screen
