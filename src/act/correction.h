#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "act/done.h"
#include "logbook/recording.h"
#include "record/history_line.h"

namespace act {

// What is recorded may take the place of an earlier line that was wrong.
struct Correction {
  std::string replaced_line;  // empty where nothing is replaced
  std::string why;
  std::vector<std::string> without = {};  // options of which nothing is kept (kept_words.h)
};

// Refusal of a correction whose number was mistyped.
[[noreturn]] void refuse_other_kind(std::int64_t line, std::string_view kind);

// What strikes a line. Refusal where there is no such line, it is struck already, or it is a strike
// or the first line; UsageError without a reason.
[[nodiscard]] record::Strike strike_of(const logbook::Logbook& logbook, std::int64_t line,
                                       const std::string& why);

// Strikes the line of this number in a recording of its own. Refusal where there is no such line,
// it is struck already, or it is a strike or the first line; UsageError without a reason.
Done strike(logbook::Logbook& logbook, const logbook::Writer& writer, std::int64_t line,
            const std::string& why);

// The same for several, all or none; each answer tells what the line said. Refusal where one is
// named twice.
Done strike(logbook::Logbook& logbook, const logbook::Writer& writer,
            const std::vector<std::int64_t>& lines, const std::string& why);

// The number of a line as typed. InputError where it is no whole number above zero.
[[nodiscard]] std::int64_t read_line_number(std::string_view text);

}  // namespace act
