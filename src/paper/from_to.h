#pragma once

#include <string>

#include "record/moment.h"

namespace paper {

// "2025-05-21 08:12", "2025-05-21 08:12 to 08:30", "2025-05-21 08:12 to 2025-05-22 09:03", in the
// local zone.
[[nodiscard]] std::string from_to(record::Moment first, record::Moment last);

}  // namespace paper
