#include "words/adapter_in_words.h"

#include <fmt/format.h>

#include "quantity/length_text.h"
#include "record/as_typed.h"

namespace words {

std::string adapter_in_words(const record::ThroughAdapter& adapter) {
  if (!adapter.measures) return adapter.words;
  return fmt::format(
      "extension {} at {} on a wrench of {}",
      record::as_typed(adapter.extension_typed, std::optional(adapter.measures->adapter_length)),
      adapter.angle_typed.empty() ? "0°" : adapter.angle_typed,
      record::as_typed(adapter.wrench_length_typed,
                       std::optional(adapter.measures->wrench_length)));
}

}  // namespace words
