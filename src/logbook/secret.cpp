#include "logbook/secret.h"

#include <fmt/format.h>
#include <sodium.h>

#include <vector>

#include "failure/failure.h"

namespace logbook {
namespace {

void start_sodium() {
  if (::sodium_init() < 0) {
    throw failure::Failure(failure::kOurFault, "no random numbers to be had");
  }
}

}  // namespace

std::string random_secret(std::size_t bytes) {
  start_sodium();
  std::vector<unsigned char> random(bytes);
  ::randombytes_buf(random.data(), random.size());
  std::string digits;
  for (const auto byte : random) digits += fmt::format("{:02x}", byte);
  return digits;
}

unsigned random_below(unsigned end) {
  start_sodium();
  return ::randombytes_uniform(end);
}

bool is_same_secret(std::string_view a, std::string_view b) {
  return a.size() == b.size() && ::sodium_memcmp(a.data(), b.data(), a.size()) == 0;
}

}  // namespace logbook
