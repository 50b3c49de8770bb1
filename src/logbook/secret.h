#pragma once

#include <string>
#include <string_view>

namespace logbook {

// To be called before anything random is asked of libsodium; a second time does nothing.
// Failure (OurFault) where the system gives no random numbers.
void start_random_numbers();

// So many random bytes from the system, as hexadecimal digits in lower case.
[[nodiscard]] std::string random_secret(std::size_t bytes);

// A random number below `end`, which is above zero; each as likely as any other.
[[nodiscard]] unsigned random_below(unsigned end);

// Whether the two are the same, found out in a time that tells nothing of how far they agree.
[[nodiscard]] bool is_same_secret(std::string_view a, std::string_view b);

}  // namespace logbook
