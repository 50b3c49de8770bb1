#pragma once

#include <string>
#include <utility>

#include "exchange/logbook_json.h"
#include "logbook/logbook.h"

// All of a logbook at once.
inline record::LogbookCopy copy_of(const logbook::Logbook& logbook) {
  class Taker : public record::CopyTaker {
   public:
    void begin(int schema) override { copy.schema = schema; }
    void take(const record::StoredLine& line) override { copy.lines.push_back(line); }
    void end(const std::vector<record::StoredSignature>& signatures) override {
      copy.signatures = signatures;
    }
    record::LogbookCopy copy;
  } taker;
  logbook.copy(taker);
  return std::move(taker.copy);
}

namespace exchange {

inline std::string write_logbook_json(const record::LogbookCopy& copy) {
  std::string text;
  LogbookJsonWriter writer([&](std::string_view piece) { text += piece; });
  writer.begin(copy.schema);
  for (const auto& line : copy.lines) writer.take(line);
  writer.end(copy.signatures);
  return text;
}

}  // namespace exchange
