#include "support/check_values.h"

#include <fstream>
#include <stdexcept>

#include "support/places.h"

namespace {

std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells(1);
  bool in_quotes = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const char c = line[i];
    if (in_quotes && c == '"' && i + 1 < line.size() && line[i + 1] == '"') {
      cells.back() += c;
      ++i;
    } else if (c == '"') {
      in_quotes = !in_quotes;
    } else if (c == ',' && !in_quotes) {
      cells.emplace_back();
    } else if (c != '\r') {
      cells.back() += c;
    }
  }
  return cells;
}

}  // namespace

std::vector<CheckRow> read_check_values(const std::string& file_name) {
  const std::string path = std::string(BOLTWITNESS_CHECK_VALUES) + "/" + file_name;
  std::ifstream file(path);
  std::string line;
  if (!std::getline(file, line)) throw std::runtime_error("no check values in " + path);
  const auto header = cells_of(line);
  std::vector<CheckRow> rows;
  while (std::getline(file, line)) {
    const auto cells = cells_of(line);
    if (cells.size() != header.size()) throw std::runtime_error("odd row in " + path + ": " + line);
    CheckRow row;
    for (std::size_t i = 0; i < cells.size(); ++i) row[header[i]] = cells[i];
    rows.push_back(std::move(row));
  }
  if (rows.empty()) throw std::runtime_error("no rows in " + path);
  return rows;
}
