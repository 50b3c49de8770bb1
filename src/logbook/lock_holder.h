#pragma once

#include <string>

namespace logbook {

// The program that holds the lock of a writer on this logbook, such as "boltwitness, process 4711",
// as the kernel tells (Linux, /proc/locks). Empty where that cannot be seen: it runs on another
// machine, in another container, or is just done.
[[nodiscard]] std::string lock_holder(const std::string& path);

}  // namespace logbook
