#pragma once

#include <string>

#include "progress/due_rechecks.h"
#include "record/moment.h"

namespace words {

// "J15/1-4: at 50 running h, 30 running h to go (50 running h after the stripe of ...)".
[[nodiscard]] std::string due_in_words(const progress::DueRecheck& due, record::Moment now);

}  // namespace words
