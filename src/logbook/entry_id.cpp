#include "logbook/entry_id.h"

#include <sodium.h>

#include <array>
#include <charconv>
#include <cstdint>
#include <string_view>

namespace logbook {
namespace {

// 128 bits in network order.
using Bits = std::array<std::uint8_t, 16>;

Bits random_bits() {
  Bits bits{};
  randombytes_buf(bits.data(), bits.size());
  return bits;
}

void set_version(Bits& bits, unsigned version) {
  bits[6] = static_cast<std::uint8_t>((bits[6] & 0x0FU) | (version << 4U));
  bits[8] = static_cast<std::uint8_t>((bits[8] & 0x3FU) | 0x80U);
}

std::string write(const Bits& bits) {
  constexpr std::string_view kDigits = "0123456789abcdef";
  std::string text;
  text.reserve(36);
  for (std::size_t i = 0; i < bits.size(); ++i) {
    if (i == 4 || i == 6 || i == 8 || i == 10) text += '-';
    text += kDigits[bits[i] >> 4U];
    text += kDigits[bits[i] & 15U];
  }
  return text;
}

Bits read(const std::string& id) {
  Bits bits{};
  std::size_t byte = 0;
  for (std::size_t at = 0; at + 1 < id.size() && byte < bits.size(); at += 2) {
    if (id[at] == '-') ++at;
    std::from_chars(id.data() + at, id.data() + at + 2, bits[byte++], 16);
  }
  return bits;
}

// More than `bits` by a random number of 48 bits that is not zero, stepping over the fixed version
// and variant bits; an overflow of the random part runs on into the time, which keeps the order. By
// a random number, since two copies of one logbook may count on from the same last id, and what
// they write must not bear one id.
Bits counted_on(Bits bits, const Bits& random) {
  constexpr std::array<std::uint8_t, 16> kFree = {0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0x0F, 0xFF,
                                                  0x3F, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF};
  constexpr std::size_t kFirstAdded = 10;
  unsigned carry = 1;
  for (std::size_t i = bits.size(); i-- > 0 && (carry != 0 || i >= kFirstAdded);) {
    const unsigned fixed = bits[i] & static_cast<unsigned>(~kFree[i] & 0xFF);
    const unsigned sum =
        (bits[i] & static_cast<unsigned>(kFree[i])) + carry + (i >= kFirstAdded ? random[i] : 0U);
    bits[i] = static_cast<std::uint8_t>(fixed | (sum & kFree[i]));
    carry = sum > kFree[i] ? 1U : 0U;
  }
  return bits;
}

}  // namespace

std::string next_entry_id(record::Moment now, const std::string& last_id) {
  Bits bits = random_bits();
  const auto milliseconds = static_cast<std::uint64_t>(now.time_since_epoch().count());
  for (std::size_t i = 0; i < 6; ++i) {
    bits[i] = static_cast<std::uint8_t>(milliseconds >> (8 * (5 - i)));
  }
  set_version(bits, 7);
  std::string id = write(bits);
  return id > last_id ? id : write(counted_on(read(last_id), bits));
}

std::string random_id() {
  Bits bits = random_bits();
  set_version(bits, 4);
  return write(bits);
}

}  // namespace logbook
