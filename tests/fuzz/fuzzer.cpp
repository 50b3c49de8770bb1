// What libFuzzer calls, with the one target that this program is built for
// (BOLTWITNESS_FUZZ_TARGET).

#include <cstddef>
#include <cstdint>
#include <string_view>

#include "fuzz/target.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  fuzz::BOLTWITNESS_FUZZ_TARGET({reinterpret_cast<const char*>(data), size});
  return 0;
}
