#include "logbook/secret.h"

#include <sodium.h>

#include <vector>

#include "failure/failure.h"
#include "logbook/digest.h"

namespace logbook {

void start_random_numbers() {
  if (::sodium_init() < 0) {
    throw failure::Failure(failure::kOurFault, "no random numbers to be had");
  }
}

std::string random_secret(std::size_t bytes) {
  start_random_numbers();
  std::vector<unsigned char> random(bytes);
  ::randombytes_buf(random.data(), random.size());
  return digits_of(random);
}

unsigned random_below(unsigned end) {
  start_random_numbers();
  return ::randombytes_uniform(end);
}

bool is_same_secret(std::string_view a, std::string_view b) {
  return a.size() == b.size() && ::sodium_memcmp(a.data(), b.data(), a.size()) == 0;
}

}  // namespace logbook
