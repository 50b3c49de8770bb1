#pragma once

#include <filesystem>
#include <string>

namespace terminal {

// The first bytes of a file, as far as they tell what it is; empty where it cannot be read.
[[nodiscard]] std::string begin_of(const std::filesystem::path& file);

// A logbook, or another SQLite database.
[[nodiscard]] bool is_database(const std::filesystem::path& file);

// Refusal where the name is that of a file which SQLite keeps beside a logbook, there or not yet:
// lines that are committed may still stand in it.
void refuse_part_of_logbook(const std::filesystem::path& file);

}  // namespace terminal
