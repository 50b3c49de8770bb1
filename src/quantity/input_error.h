#pragma once

#include <stdexcept>
#include <string>

namespace quantity {

// Something a person typed, or a value given, that cannot be taken. The message says what was
// found, what was expected and what to try; it ends up on stderr as it is. Nothing has been
// written when it is thrown.
class InputError : public std::runtime_error {
 public:
  explicit InputError(const std::string& message) : std::runtime_error(message) {}
};

}  // namespace quantity
