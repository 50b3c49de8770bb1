#pragma once

#include <string>
#include <string_view>

#include "record/logbook_copy.h"

namespace exchange {

// The whole logbook as JSON (schema/logbook.schema.json says what may stand where), one line of
// text for each line of the logbook, the same bytes for the same copy. Numbers are written as short
// as they read back to the same value.
// InputError for text that is not UTF-8, which no command of this program writes.
[[nodiscard]] std::string write_logbook_json(const record::LogbookCopy& copy);

// The same as JSON Lines: what it is and how many lines and signatures follow, then an object in one
// line of text for each.
[[nodiscard]] std::string write_logbook_json_lines(const record::LogbookCopy& copy);

// The copy in a text of either form. InputError, naming the place as a JSON pointer ("/lines/3/id")
// or, where the text is no JSON, as line and column, for anything that neither of them writes: a
// member that is missing, unknown or there twice, another type, an id that is no UUID, a time that
// is none, line numbers that do not rise, an id twice, text with control characters, lines that are
// not all there. What may stand in the rows only the schema of a logbook knows; see
// logbook/restore.h.
[[nodiscard]] record::LogbookCopy read_logbook_json(std::string_view text);

}  // namespace exchange
