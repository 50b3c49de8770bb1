#pragma once

#include <filesystem>
#include <string>

namespace terminal {

// The id of this machine and user: made once, then kept in `folder`/device. It names nobody; it
// tells the lines of one machine from those of another. Where nothing can be kept there it is
// computed from what the machine is known by and who is logged in, so that it stays the same.
[[nodiscard]] std::string device_id(const std::filesystem::path& folder);

}  // namespace terminal
