#pragma once

#include <string>
#include <string_view>
#include <utility>

#include "exchange/logbook_json.h"
#include "logbook/logbook.h"

// All of a logbook at once.
inline record::LogbookCopy copy_of(const logbook::Logbook& logbook) {
  record::WholeCopy taker;
  logbook.copy(taker);
  return std::move(taker).taken();
}

namespace exchange {

// The JSON of a copy in one piece; `photograph_with` gives the bytes of its photographs.
inline std::string write_logbook_json(
    const record::LogbookCopy& copy,
    const PhotographWith& photograph_with = [](const std::string&) { return std::string(); },
    LogbookForm form = LogbookForm::Document) {
  std::string text;
  LogbookJsonWriter writer(
      form, [&](std::string_view piece) { text += piece; }, photograph_with);
  writer.begin({copy.schema, static_cast<std::int64_t>(copy.lines.size()), copy.signatures.size(),
                copy.photographs.size()});
  for (const auto& line : copy.lines) writer.take(line);
  writer.end(copy.signatures, copy.photographs);
  return text;
}

// All of what such a text holds, but the bytes of its photographs.
inline record::LogbookCopy read_logbook_json(std::string_view text) {
  const LogbookJsonReader reader(text);
  record::LogbookCopy copy{reader.size().schema, {}, reader.signatures(), reader.photographs()};
  reader.each_line([&](const record::StoredLine& line) { copy.lines.push_back(line); });
  return copy;
}

}  // namespace exchange
