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
  std::string whole = {};           // the command that cuts no list; empty where it was given
};

// How many were found in both and how many of them went their own way; one row a position, joint by
// joint with the median of the ratios; what
// differs between the joints; then the control band and what it was made of. Of a long list the
// rows that are as the others are left out.
[[nodiscard]] std::string drift_text(const DriftPage& page_of, const words::Page& page);

// The first line of it alone.
[[nodiscard]] std::string drift_in_short(const DriftPage& page_of, const words::Page& page);

// {"machine","other_machine","rows":[{"joint","position","this_nm","other_nm","ratio","outside",
// "e_n","changed"}],"joints":[{"joint","median"|null,"of","differs":[..],"in_one":[..]}],"band":{"centre","low",
// "high","mean_moving_range","of"}|null,"only_here":[..],"only_there":[..]}
[[nodiscard]] std::string drift_json(const DriftPage& page_of);

}  // namespace screen
