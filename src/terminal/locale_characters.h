#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "quantity/visible_text.h"

namespace terminal {

// The characters that the locale names (LC_ALL, else LC_CTYPE, else LANG): "utf-8", "iso-8859-1",
// in lower case; "us-ascii" for C, POSIX and every locale that names none; nothing where no locale
// is named.
[[nodiscard]] std::optional<std::string> locale_characters(
    const std::function<std::optional<std::string>(const char*)>& environment);

[[nodiscard]] bool is_utf_8(std::string_view characters);

// Puts UTF-8 into the characters of the locale, one after the other. Nothing is guessed where none
// is named: then, and for UTF-8, everything stays. Else what the locale has is put into it, and
// what it has not is written with what every locale has: "N.m", "+/-", "80 deg", an accented letter
// without its accent, "<U+65E5>" for the rest.
class LocaleText {
 public:
  explicit LocaleText(std::optional<std::string> characters);
  ~LocaleText();
  LocaleText(const LocaleText&) = delete;
  LocaleText& operator=(const LocaleText&) = delete;

  // Columns that a stand-in takes more than its character are taken off the next gap of the same
  // line that has more than one blank, so that what is in columns stays so.
  [[nodiscard]] std::string put(const quantity::Character& character);
  [[nodiscard]] std::string put(std::string_view text);

  // A text that begins a line.
  [[nodiscard]] std::string put_line(std::string_view text);

  // Whether every text stays as it is.
  [[nodiscard]] bool stays() const { return stays_; }

 private:
  [[nodiscard]] std::string in_locale(std::string_view bytes);
  [[nodiscard]] std::string plain(const quantity::Character& character) const;

  bool stays_ = true;
  void* converter_ = nullptr;  // of iconv(3); null where the locale has ASCII alone
  char before_ = '\n';
  std::size_t ahead_ = 0;  // columns that the line is longer by so far
};

}  // namespace terminal
