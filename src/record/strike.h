#pragma once

#include <string>

#include "record/in_job.h"

namespace record {

// Strikes an earlier line: it stays readable but counts no longer.
struct Strike {
  std::string struck_id;
  std::string reason;
};
template <>
struct InJob<Strike> {};  // a job holds what is left after them

}  // namespace record
