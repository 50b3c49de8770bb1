#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

// Changes a logbook behind the program, with the triggers out of the way, which are put back. What
// was changed does not fit its hash any more.
void alter(const std::string& path, const std::string& sql);

// The same, and leaves nothing that shows it: every hash is made anew.
void forge(const std::string& path, const std::string& sql);

// The same of the last line alone: those before it keep the hashes that another copy has of them.
void forge_last(const std::string& path, const std::string& sql);

// More than is held against its hashes as a whole, of pages that hold nothing.
void enlarge(const std::string& path);

// The columns of text of each table as (table, column), without ids and hashes.
std::vector<std::pair<std::string, std::string>> columns_of_text(const std::string& path);

// The number of the last line of this kind that is not struck; 0 where there is none.
std::int64_t last_line_of(const std::string& path, const std::string& kind);

// Moves what stands in the write-ahead log into the file.
void into_one_file(const std::string& path);
