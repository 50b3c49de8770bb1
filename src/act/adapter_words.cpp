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

std::optional<record::ThroughAdapter> adapter_in_place_of(const record::ThroughAdapter& before,
                                                          AdapterWords words, KeptWords& kept) {
  const bool is_said =
      !words.extension.empty() || !words.wrench_length.empty() || !words.angle.empty();
  // Each is asked for, so that --without may name them.
  const bool keeps_it = kept.keeps("extension", !words.extension.empty());
  const bool keeps_angle = kept.keeps("adapter-angle", !words.angle.empty());
  const bool is_left_out = !keeps_it && words.extension.empty();
  if (is_left_out || !record::is_used(before)) return adapter_from(words);
  const auto& told = record::told_of(before);
  if (!is_said && (keeps_angle || !told.measures)) return before;
  KeptWords::fill(words.extension, told.extension_typed);
  KeptWords::fill(words.wrench_length, told.wrench_length_typed);
  if (keeps_angle) words.angle = told.angle_typed;
  return adapter_from(words);
}

}  // namespace act
