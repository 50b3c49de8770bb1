#include "act/adapter_words.h"

#include "failure/failure.h"

namespace act {

std::optional<record::ThroughAdapter> adapter_from(const AdapterWords& words) {
  if (words.extension.empty() && words.wrench_length.empty() && words.angle.empty()) {
    return std::nullopt;
  }
  if (words.extension.empty() || words.wrench_length.empty()) {
    throw failure::UsageError(
        "an extension needs --extension LENGTH and --wrench-length LENGTH, both from the square "
        "drive");
  }
  return record::read_adapter(words.extension, words.wrench_length, words.angle);
}

AdapterWords words_of(const record::ThroughAdapter& adapter) {
  if (!adapter.measures) return {};
  return {adapter.extension_typed, adapter.wrench_length_typed, adapter.angle_typed};
}

}  // namespace act
