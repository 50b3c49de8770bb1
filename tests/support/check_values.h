#pragma once

#include <map>
#include <string>
#include <vector>

// One row of a CSV file under tests/check_values/: column name -> cell.
using CheckRow = std::map<std::string, std::string>;

// Reads a whole check-value file (header row, quoted cells allowed). Throws when the file is
// missing, empty, or a row has another number of cells than the header.
std::vector<CheckRow> read_check_values(const std::string& file_name);
