#pragma once

#include <optional>
#include <ostream>
#include <streambuf>
#include <string>
#include <string_view>
#include <utility>

#include "terminal/locale_characters.h"

namespace terminal {

// What is written behind this takes the place of what stood in the line.
inline constexpr const char* kStartOverLine = "\r\x1b[K";

// What is written into it comes out of another stream with nothing in it that acts on a terminal:
// hidden characters (quantity/visible_text.h) as "<U+001B>", whether they come from a logbook, a
// file, its name or the command line. LF, HT and what this program itself says to a terminal stay:
// bold on and off, and the start of a line that is written over. Characters come out as the locale
// has them.
class InertBuffer : public std::streambuf {
 public:
  InertBuffer(std::ostream& sink, std::optional<std::string> characters)
      : sink_(sink), locale_(std::move(characters)) {}
  ~InertBuffer() override;
  InertBuffer(const InertBuffer&) = delete;
  InertBuffer& operator=(const InertBuffer&) = delete;

 protected:
  std::streamsize xsputn(const char* text, std::streamsize size) override;
  int_type overflow(int_type character) override;
  int sync() override;

 private:
  // Puts the text out but for what may begin something, which it returns.
  std::string_view given(std::string_view text, bool is_end);
  bool give(bool is_end);

  std::ostream& sink_;
  LocaleText locale_;
  std::string waiting_;  // the beginning of a character or of something said to a terminal
};

class InertStream : public std::ostream {
 public:
  // `characters` as locale_characters() tells them.
  explicit InertStream(std::ostream& sink, std::optional<std::string> characters = std::nullopt)
      : std::ostream(nullptr), buffer_(sink, std::move(characters)) {
    rdbuf(&buffer_);
    if (!sink) setstate(std::ios::badbit);
  }

 private:
  InertBuffer buffer_;
};

}  // namespace terminal
