#pragma once

#include <string>

namespace record {

// Strikes an earlier line: it stays readable but counts no longer.
struct Strike {
  std::string struck_id;
  std::string reason;
};

}  // namespace record
