#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "record/logbook_copy.h"

namespace exchange {

// Takes a text piece by piece, in its order.
using TakeText = std::function<void(std::string_view piece)>;

// The bytes of a photograph by its SHA-256.
using PhotographWith = std::function<std::string(const std::string& sha256)>;

// One JSON document, or JSON Lines: what it is and how many of each follow, then an object in one
// line of text for each line, signature and photograph.
enum class LogbookForm { Document, JsonLines };

// Writes the whole logbook as JSON (schema/logbook.schema.json says what may stand where), one line
// of text for each line of the logbook and each photograph, the same bytes for the same copy.
// Numbers are written as short as they read back to the same value, photographs in base64; of these
// each is asked for when it is written. InputError for text that is not UTF-8, which no command of
// this program writes.
class LogbookJsonWriter : public record::CopyTaker {
 public:
  LogbookJsonWriter(LogbookForm form, TakeText out, PhotographWith photograph_with)
      : form_(form), out_(std::move(out)), photograph_with_(std::move(photograph_with)) {}

  void begin(const record::CopySize& size) override;
  void take(const record::StoredLine& line) override;
  void end(const std::vector<record::StoredSignature>& signatures,
           const std::vector<std::string>& photographs) override;

 private:
  void begin_array(const char* name, int since);
  void end_array(bool has_elements);
  void begin_element(bool& has_elements);
  void end_element();

  LogbookForm form_;
  TakeText out_;
  PhotographWith photograph_with_;
  std::string text_;  // not given out yet
  int schema_ = 0;
  bool has_lines_ = false;
  bool is_open_ = form_ == LogbookForm::Document;  // the array of a document
};

// What stands under "rows" of one line there, on one line of text.
[[nodiscard]] std::string write_rows_json(const record::StoredLine& line);

// The copy in a text of either form, which is read anew each time that lines or photographs are
// asked for, so that nothing grows with their number but what tells their ids apart. The text has
// to outlive it.
class LogbookJsonReader : public record::CopySource {
 public:
  // Reads all of it once. InputError, naming the place as a JSON pointer ("/lines/3/id") or, where
  // the text is no JSON, as line and column, for anything that neither form has: a member that is
  // missing, unknown or there twice, another type, an id that is no UUID, a time that is none, line
  // numbers that do not rise, an id twice, text with control characters, lines that are not all
  // there. What may stand in the rows only the schema of a logbook knows; see logbook/restore.h. Of
  // the photographs only what they are called by is read. `element_read` is called after each line,
  // signature and photograph.
  explicit LogbookJsonReader(std::string_view text, const std::function<void()>& element_read = {});

  [[nodiscard]] record::CopySize size() const override { return size_; }
  void each_line(const std::function<void(const record::StoredLine& line)>& take) const override;
  [[nodiscard]] const std::vector<record::StoredSignature>& signatures() const override {
    return signatures_;
  }
  [[nodiscard]] const std::vector<std::string>& photographs() const override {
    return photographs_;
  }
  // InputError for what is no base64.
  void each_photograph(const std::function<void(std::string_view bytes)>& take) const override;

 private:
  std::string_view text_;
  record::CopySize size_;
  std::vector<record::StoredSignature> signatures_;
  std::vector<std::string> photographs_;
};

}  // namespace exchange
