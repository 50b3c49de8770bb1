#pragma once

#include <string>
#include <string_view>
#include <utility>

#include "failure/failure.h"

namespace act {

// What one option was given cannot be taken. An import tells by it in which column to look.
class OptionError : public failure::Failure {
 public:
  OptionError(std::string_view option, const std::string& message,
              failure::ExitCode code = failure::kWrongUsage)
      : Failure(code, message), option_(option) {}
  // As it is typed: "--count", or the name of what is given by its place.
  [[nodiscard]] const std::string& option() const { return option_; }

 private:
  std::string option_;
};

// Runs `read` and tells what it refuses as being of this option, in the same words and with the
// same exit code.
template <class Read>
auto of_option(std::string_view option, Read&& read) {
  try {
    return std::forward<Read>(read)();
  } catch (const OptionError&) {
    throw;
  } catch (const failure::Failure& error) {
    throw OptionError(option, error.what(), error.exit_code());
  }
}

}  // namespace act
