#pragma once

#include <cstdint>
#include <initializer_list>
#include <string>
#include <string_view>

#include "act/done.h"
#include "logbook/recording.h"

namespace act {

// What is recorded may take the place of an earlier line that was wrong.
struct Correction {
  std::string replaced_line;  // empty where nothing is replaced
  std::string why;
};

// Strikes the line that is replaced, in the same recording as its successor. Nothing where none is.
// Refusal as strike_line, and where the line is of none of these kinds: then its number was
// mistyped.
void strike_replaced(const logbook::Logbook& logbook, logbook::Recording& recording,
                     const Correction& correction, std::initializer_list<std::string_view> kinds);

// Strikes one line. Refusal where there is no such line, it is struck already, or it is a strike
// or the first line; UsageError without a reason.
record::Stamp strike_line(const logbook::Logbook& logbook, logbook::Recording& recording,
                          std::int64_t line, const std::string& why);

// Strikes the line of this number, as typed, in a recording of its own.
Done strike(logbook::Logbook& logbook, const logbook::Writer& writer, std::int64_t line,
            const std::string& why);

// The number of a line as typed. InputError where it is no whole number above zero.
[[nodiscard]] std::int64_t read_line_number(std::string_view text);

}  // namespace act
