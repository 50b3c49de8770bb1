#pragma once

#include <string>

#include "exchange/logbook_json.h"

// The JSON of a copy in one piece; `photograph_with` gives the bytes of its photographs.
inline std::string written_json(
    const record::LogbookCopy& copy,
    const exchange::PhotographWith& photograph_with = [](const std::string&) { return ""; }) {
  std::string text;
  exchange::write_logbook_json(copy, photograph_with,
                               [&](std::string_view piece) { text += piece; });
  return text;
}
