#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "record/logbook_copy.h"

namespace exchange {

// Writes the whole logbook as JSON (schema/logbook.schema.json says what may stand where), one line
// of text for each line of the logbook, the same bytes for the same copy. Numbers are written as
// short as they read back to the same value.
// InputError for text that is not UTF-8, which no command of this program writes.
class LogbookJsonWriter : public record::CopyTaker {
 public:
  // `out` is given piece after piece of the text.
  explicit LogbookJsonWriter(std::function<void(std::string_view)> out) : out_(std::move(out)) {}

  void begin(int schema) override;
  void take(const record::StoredLine& line) override;
  void end(const std::vector<record::StoredSignature>& signatures) override;

 private:
  std::function<void(std::string_view)> out_;
  std::string text_;  // not given out yet
  int schema_ = 0;
  bool has_lines_ = false;
};

// The copy in such a text. InputError, naming the place as a JSON pointer ("/lines/3/id") or, where
// the text is no JSON, as line and column, for anything that LogbookJsonWriter does not write: a
// member that is missing, unknown or there twice, another type, an id that is no UUID, a time that
// is none, line numbers that do not rise, an id twice, text with control characters. What may stand
// in the rows only the schema of a logbook knows; see logbook/restore.h.
[[nodiscard]] record::LogbookCopy read_logbook_json(std::string_view text);

}  // namespace exchange
