#include "phone/addresses.h"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>

#include <array>

namespace phone {

std::vector<std::string> addresses_in_network() {
  std::vector<std::string> addresses;
  ifaddrs* all = nullptr;
  if (::getifaddrs(&all) != 0) return addresses;
  for (const auto* each = all; each != nullptr; each = each->ifa_next) {
    if (each->ifa_addr == nullptr || each->ifa_addr->sa_family != AF_INET) continue;
    if ((each->ifa_flags & IFF_UP) == 0 || (each->ifa_flags & IFF_LOOPBACK) != 0) continue;
    std::array<char, INET_ADDRSTRLEN> text{};
    const auto* four = reinterpret_cast<const sockaddr_in*>(each->ifa_addr);
    if (::inet_ntop(AF_INET, &four->sin_addr, text.data(), text.size()) != nullptr) {
      addresses.emplace_back(text.data());
    }
  }
  ::freeifaddrs(all);
  return addresses;
}

}  // namespace phone
