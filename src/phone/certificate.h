#pragma once

#include <filesystem>
#include <string>

namespace phone {

// A certificate that this machine made for itself, and its key.
struct Certificate {
  std::filesystem::path file;
  std::filesystem::path key_file;
  std::string fingerprint;  // SHA-256, as browsers show it: "3F:A0:..."
};

// The one in this folder; made at first use: elliptic curve P-256, good for ten years, the key for
// nobody else to read. OutputLost where it can be neither read nor made.
[[nodiscard]] Certificate own_certificate(const std::filesystem::path& folder);

}  // namespace phone
