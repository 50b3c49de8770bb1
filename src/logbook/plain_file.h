#pragma once

#include <cstddef>
#include <filesystem>
#include <string>

namespace logbook {

// The first bytes of a plain file, so many at most; empty where it cannot be read, and for a
// folder, a pipe, a device or anything else that is no file: none of it is waited for. Not for a
// database that this process has open, or its -shm: closing either ends the locks that the library
// holds on it (fcntl(2)).
[[nodiscard]] std::string begin_of_plain_file(const std::filesystem::path& file, std::size_t most);

}  // namespace logbook
