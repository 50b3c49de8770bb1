#pragma once

#include <optional>
#include <string>

#include "record/content.h"
#include "record/entry.h"

namespace record {

// A line of the logbook as history shows it: struck or not, with what struck it.
struct HistoryLine {
  Stamp stamp;
  Content content;
  std::optional<Stamp> struck_by;
  std::string struck_why;  // empty where it stands
};

}  // namespace record
