#include "support/comma_locale.h"

#include <string_view>

namespace {

class CommaNumbers : public std::numpunct<char> {
 protected:
  char do_decimal_point() const override { return ','; }
  char do_thousands_sep() const override { return '.'; }
  std::string do_grouping() const override { return "\3"; }
};

std::optional<std::string> set_c_locale_with_comma() {
  for (const char* name : {"de_DE.UTF-8", "de_DE.utf8", "de_DE", "fr_FR.UTF-8", "fr_FR.utf8",
                           "it_IT.UTF-8", "es_ES.UTF-8", "nl_NL.UTF-8", "sv_SE.UTF-8"}) {
    if (std::setlocale(LC_ALL, name) != nullptr &&
        std::string_view(std::localeconv()->decimal_point) == ",") {
      return name;
    }
  }
  return std::nullopt;
}

}  // namespace

CommaLocale::CommaLocale()
    : c_locale_before_(std::setlocale(LC_ALL, nullptr)),
      locale_before_(std::locale::global(std::locale(std::locale::classic(), new CommaNumbers))),
      c_locale_(set_c_locale_with_comma()) {}

CommaLocale::~CommaLocale() {
  std::locale::global(locale_before_);
  std::setlocale(LC_ALL, c_locale_before_.c_str());
}
