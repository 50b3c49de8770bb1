#pragma once

#include <array>
#include <optional>
#include <string_view>

namespace fastener {

// In what state thread and head face are tightened.
enum class Condition {
  Dry,           // cleaned of oil and grease
  Oiled,         // thread and head face oiled
  Threadlocker,  // adhesive in the thread
  AntiSeize,     // assembly paste on thread and head face
  AsReceived,    // as it came out of the box, whatever its finish
};

inline constexpr std::array kConditions = {Condition::Dry, Condition::Oiled,
                                           Condition::Threadlocker, Condition::AntiSeize,
                                           Condition::AsReceived};

// "dry", "oiled", "threadlocker", "anti-seize", "as-received". ON DISK: none ever changes or goes.
[[nodiscard]] std::string_view name_of(Condition condition);

// The same words in any case, with hyphens or spaces or neither. Nothing for any other text.
[[nodiscard]] std::optional<Condition> read_condition(std::string_view text);

}  // namespace fastener
