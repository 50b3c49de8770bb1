#pragma once

#include <filesystem>
#include <string>

#include "logbook/signing_key.h"

namespace terminal {

struct PersonsKey {
  logbook::SigningKey key;
  std::filesystem::path file;
  bool is_new = false;
};

// The key of the person at this machine, kept in this folder as `signing-key`: 64 hexadecimal
// digits that nobody else can read. Made where there is none yet. LogbookError where it can be
// neither read nor made, or where others may read it.
[[nodiscard]] PersonsKey persons_key(const std::filesystem::path& folder);

}  // namespace terminal
