#pragma once

#include <optional>
#include <string>
#include <vector>

#include "record/content.h"
#include "record/entry.h"

namespace record {

// A line of the logbook as history shows it: struck or not, with what struck it.
struct HistoryLine {
  Stamp stamp;
  Content content;
  std::optional<Stamp> struck_by;
  std::string struck_why;  // empty where it stands
  // Struck once more in another copy of the logbook, by somebody who had not seen the first strike.
  struct StruckAgain {
    Stamp by;
    std::string why;
  };
  std::vector<StruckAgain> struck_again = {};
  // It was changed after it was written, which is shown beside it; it counts for nothing, so that
  // nobody is kept from his logbook. One that is not struck is refused instead.
  bool is_altered = false;
};

}  // namespace record
