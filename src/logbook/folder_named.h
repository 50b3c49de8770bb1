#pragma once

#include <filesystem>

namespace logbook {

// The folder that a new file is to lie in, as it was named. InputError where there is none of that
// name: a slipped key, or a stick that is not plugged in. What else is wrong with it shows when it
// is written into.
[[nodiscard]] const std::filesystem::path& folder_or_refuse(const std::filesystem::path& folder);

}  // namespace logbook
