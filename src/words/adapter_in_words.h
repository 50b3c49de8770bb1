#pragma once

#include <string>

#include "record/through_adapter.h"

namespace words {

// "extension 50 mm at 90° on a wrench of 400 mm", with its measures as they were typed; the words
// of an earlier version where it kept no measures. Empty where there is none.
[[nodiscard]] std::string adapter_in_words(const record::ThroughAdapter& adapter);

}  // namespace words
