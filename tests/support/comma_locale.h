#pragma once

#include <clocale>
#include <locale>
#include <optional>
#include <string>

// For its lifetime the whole program runs under a locale that writes 1234.5 as "1.234,5": the C++
// global locale always, the C locale where the machine has one of that kind installed.
class CommaLocale {
 public:
  CommaLocale();
  ~CommaLocale();
  CommaLocale(const CommaLocale&) = delete;
  CommaLocale& operator=(const CommaLocale&) = delete;

  // The C locale in force, or nothing where none with a decimal comma is installed.
  [[nodiscard]] const std::optional<std::string>& c_locale() const { return c_locale_; }

 private:
  std::string c_locale_before_;
  std::locale locale_before_;
  std::optional<std::string> c_locale_;
};
