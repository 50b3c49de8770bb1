#pragma once

#include <optional>
#include <string>

#include "record/through_adapter.h"

namespace act {

// A crowfoot or extension that wrench settings go through, as typed.
struct AdapterWords {
  std::string extension;
  std::string wrench_length;
  std::string angle;
};

// The adapter, with its measures as typed. Nothing where no extension is named. UsageError where
// one of the lengths is missing; InputError for an adapter that cannot be.
[[nodiscard]] std::optional<record::ThroughAdapter> adapter_from(const AdapterWords& words);

// What was typed for it; nothing typed where none was used or its measures are not known.
[[nodiscard]] AdapterWords words_of(const record::ThroughAdapter& adapter);

}  // namespace act
