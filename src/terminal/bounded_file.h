#pragma once

#include <cstddef>
#include <string>

namespace terminal {

// What stands in a file, where that is no more than so many bytes. InputError where it is more, and
// for a folder, a device or anything else that is no file: none of it is waited for.
[[nodiscard]] std::string read_bounded_file(const std::string& path, std::size_t most);

// InputError that what was named holds more than so many bytes.
[[noreturn]] void refuse_too_large(const std::string& name, std::size_t most);

}  // namespace terminal
