#include "words/adapter_in_words.h"

#include <fmt/format.h>

#include "quantity/length_text.h"
#include "record/as_typed.h"

namespace words {

std::string adapter_in_words(const record::ThroughAdapter& adapter) {
  const auto& told = record::told_of(adapter);
  if (!told.measures) return told.words;
  return fmt::format(
      "extension {} at {} on a wrench of {}",
      record::as_typed(told.extension_typed, std::optional(told.measures->adapter_length)),
      told.angle_typed.empty() ? "0°" : told.angle_typed,
      record::as_typed(told.wrench_length_typed, std::optional(told.measures->wrench_length)));
}

}  // namespace words
