#pragma once

#include <string>
#include <vector>

namespace phone {

// The addresses of this machine in its networks, IPv4, without the loopback's own.
[[nodiscard]] std::vector<std::string> addresses_in_network();

}  // namespace phone
