#pragma once

#include <string_view>
#include <utility>
#include <vector>

#include "exchange/csv.h"

namespace exchange {

// All rows of a text and all of its faults.
struct CsvText {
  std::vector<CsvRow> rows;
  std::vector<CsvFault> faults;
  Decimals decimals = Decimals::Point;
};

// `piece_bytes` of it come in at a time; 0 for all at once.
inline CsvText read_csv(std::string_view text, std::size_t piece_bytes = 0) {
  std::string_view rest = text;
  CsvReader reader([&] {
    const auto piece = rest.substr(0, piece_bytes == 0 ? rest.size() : piece_bytes);
    rest.remove_prefix(piece.size());
    return piece;
  });
  CsvText read;
  while (const auto* row = reader.next()) {
    read.rows.push_back(*row);
    read.faults.insert(read.faults.end(), reader.faults().begin(), reader.faults().end());
  }
  read.decimals = reader.decimals();
  return read;
}

}  // namespace exchange
