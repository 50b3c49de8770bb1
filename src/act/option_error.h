#pragma once

#include <string>
#include <string_view>
#include <utility>

#include "act/at_page.h"
#include "failure/failure.h"

namespace act {

// What one option was given cannot be taken. An import tells by it in which column to look.
class OptionError : public failure::Failure, public SaidAtPage {
 public:
  OptionError(std::string_view option, const std::string& message,
              failure::ExitCode code = failure::kWrongUsage, const std::string& at_page = {})
      : Failure(code, message), SaidAtPage(at_page.empty() ? message : at_page), option_(option) {}
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
    const auto* at_page = dynamic_cast<const SaidAtPage*>(&error);
    throw OptionError(option, error.what(), error.exit_code(),
                      at_page == nullptr ? std::string() : at_page->at_page());
  }
}

}  // namespace act
