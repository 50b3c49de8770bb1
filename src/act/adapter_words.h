#pragma once

#include <optional>
#include <string>

#include "act/kept_words.h"
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

// The adapter of a line that takes the place of one with `before`: that one as it stands where
// nothing is said of it, its measures one by one where some are. Nothing where there is none, or
// --without extension leaves it out. UsageError and InputError as above.
[[nodiscard]] std::optional<record::ThroughAdapter> adapter_in_place_of(
    const record::ThroughAdapter& before, AdapterWords words, KeptWords& kept);

}  // namespace act
